"""Tables of text: lines, cells, the words for a cell that will not do, and rows made when asked for."""

from __future__ import annotations

import csv
import datetime
import itertools
import math
from collections.abc import Callable, Iterable, Iterator, Mapping, ValuesView
from pathlib import Path
from typing import TypeVar

from lakewright.errors import Mistake, StockError

Points = tuple[float, ...]

NOMINAL = {
    "1/4": 0.25,
    "3/8": 0.375,
    "1/2": 0.5,
    "3/4": 0.75,
    "1": 1.0,
    "1-1/4": 1.25,
    "1-1/2": 1.5,
    "2": 2.0,
    "2-1/2": 2.5,
    "3": 3.0,
    "4": 4.0,
}
"""Nominal sizes as written, and the inches they name."""

MOST_DIGITS = 15
"""ours: past this a float drops whole units."""

# ours: the days a spreadsheet counts from the end of 1899, for the years 1982 to 2064.
_DAY_COUNTS = range(30000, 60000)


def is_whole(text: str) -> bool:
    """Whether a text is a whole number, in digits of our own, of a size that means something."""
    return text.isascii() and text.isdigit() and len(text) <= MOST_DIGITS


class CellError(StockError):
    """One cell that will not do, as a mistake with its place."""

    def __init__(self, mistake: Mistake) -> None:
        place = f"{mistake.file}, line {mistake.line}" + (f", {mistake.key}" if mistake.key else "")
        super().__init__(mistake.found, mistake.wanted, mistake.remedy, place)
        self.mistake = mistake


class Line:
    """One line of a table, which knows where it stands so that a bad cell can be named."""

    def __init__(self, file: str, place: int, cells: Mapping[str, str]) -> None:
        self.file = file
        self.place = place
        self.cells = cells

    def wrong(self, column: str, found: str, wanted: str, remedy: str) -> CellError:
        """The error for one cell, in the four parts."""
        return CellError(Mistake(self.file, self.place, column, found, wanted, remedy))

    def text(self, column: str) -> str:
        """The cell as written."""
        if column not in self.cells:
            raise self.wrong(column, "no such column", "one, with a cell in it", "add the column, or say like")
        return self.cells[column]

    def words(self, column: str) -> str:
        """The cell as written, and something in it."""
        text = self.text(column)
        if not text:
            raise self.wrong(column, "nothing", "a word or two", "write it in")
        return text

    def optional(self, column: str) -> str:
        """The cell as written; nothing where the table has no such column."""
        return self.cells.get(column, "")

    def _number_in(self, column: str, text: str) -> float:
        try:
            value = float(text)
        except ValueError:
            value = math.nan
        if not math.isfinite(value) or value < 0.0:
            raise self.wrong(column, repr(text), "a number, 0 or more", "write it in digits, such as 1.610")
        return value

    def number(self, column: str, unit: float = 1.0) -> float:
        """The cell as a number, times its unit."""
        return self._number_in(column, self.text(column)) * unit

    def above_zero(self, column: str, unit: float = 1.0) -> float:
        """The cell as a number above 0, times its unit."""
        value = self.number(column, unit)
        if value == 0.0:
            raise self.wrong(column, repr(self.cells[column]), "a number above 0", "look it up and write it in")
        return value

    def number_or_nan(self, column: str, unit: float = 1.0) -> float:
        """The cell as a number, times its unit; nan when it is left empty."""
        return self.number(column, unit) if self.text(column) else math.nan

    def share(self, column: str) -> float:
        """The cell as a share above 0 and up to 1."""
        value = self.above_zero(column)
        if value > 1.0:
            raise self.wrong(column, repr(self.cells[column]), "a share up to 1", "write 50 % as 0.5")
        return value

    def whole(self, column: str, remedy: str = "write it in digits, such as 2") -> int:
        """The cell as a whole number."""
        text = self.text(column)
        if not is_whole(text):
            raise self.wrong(column, repr(text), "a whole number", remedy)
        return int(text)

    def cents(self, column: str) -> int:
        """The cell as whole cents; $12.50 is read too."""
        text = self.text(column)
        whole, point, part = text.removeprefix("$").partition(".")
        in_dollars = text.startswith("$") and is_whole(whole) and (not point or (len(part) == 2 and is_whole(part)))
        if in_dollars:
            return int(whole) * 100 + int(part or 0)
        return self.whole(column, "write cents, so 12.50 as 1250")

    def yes(self, column: str) -> bool:
        """The cell as yes or no."""
        text = self.text(column)
        if text not in ("yes", "no"):
            raise self.wrong(column, repr(text), "yes or no", "write one of the two")
        return text == "yes"

    def one_of(self, column: str, known: Iterable[str], remedy: str) -> str:
        """The cell as one of some words."""
        text, words = self.text(column), tuple(known)
        if text not in words:
            raise self.wrong(column, repr(text), f"one of {', '.join(words)}", remedy)
        return text

    def size(self, column: str) -> str:
        """The cell as a nominal size."""
        text = self.text(column)
        if text in NOMINAL:
            return text
        near = {f"{inches:g}": size for size, inches in NOMINAL.items()} | {
            size.replace("-", " "): size for size in NOMINAL
        }
        remedy = "write a nominal size"
        if (bare := text.removesuffix('"').removesuffix(" in").strip()) in NOMINAL or bare in near:
            remedy = f"write {near.get(bare, bare)}"
        elif is_whole(text) and int(text) in _DAY_COUNTS:
            remedy = "a spreadsheet took a size such as 1/2 for a date: set the column to text and type it again"
        raise self.wrong(column, repr(text), "a nominal size such as 1-1/2", remedy)

    def date(self, column: str) -> datetime.date:
        """The cell as a date, or as a spreadsheet's count of days."""
        text = self.text(column)
        if is_whole(text) and len(text) == 5 and int(text) in _DAY_COUNTS:
            return datetime.date(1899, 12, 30) + datetime.timedelta(days=int(text))
        try:
            if len(text) != 10:  # 20260301 is a date to the library, and a slip in a price list
                raise ValueError
            return datetime.date.fromisoformat(text)
        except ValueError:
            raise self.wrong(column, repr(text), "a date", "write it as 2026-05-03") from None

    def numbers(self, column: str, unit: float = 1.0) -> Points:
        """The cell as numbers parted by spaces, times their unit."""
        values = tuple(self._number_in(column, part) * unit for part in self.text(column).split())
        if not values:
            raise self.wrong(column, "nothing", "numbers parted by spaces", "write such as 0 4 8 12")
        return values

    def rising(self, column: str, unit: float = 1.0) -> Points:
        """As `numbers`, and each above the one before."""
        values = self.numbers(column, unit)
        if any(after <= before for before, after in itertools.pairwise(values)):
            found = repr(self.cells[column])
            raise self.wrong(column, found, "numbers that rise", "sort the points and write each once")
        return values

    def as_many(self, column: str, values: Points, like: str, wanted: Points) -> Points:
        """`values`, which must be as many as another column's."""
        if len(values) != len(wanted):
            found = f"{len(values)} numbers"
            raise self.wrong(column, found, f"{len(wanted)}, as in {like}", f"give one number for each of {like}")
        return values


def lines_of(text: str, file: str) -> Iterator[Line]:
    """The lines of a table: comma-separated, first the column names, `#` and empty lines passed over."""
    kept = [(n, line) for n, line in enumerate(text.splitlines(), start=1) if line and not line.startswith("#")]
    rows = csv.reader(line for _, line in kept)
    columns = next(rows, [])
    for (number, _), cells in zip(kept[1:], rows, strict=True):
        if len(cells) != len(columns):
            found, wanted = f"{len(cells)} cells", f"{len(columns)}, one a column"
            remedy = "put a text with commas between double quotes"
            raise CellError(Mistake(file, number, "", found, wanted, remedy))
        yield Line(file, number, dict(zip(columns, cells, strict=True)))


Row = TypeVar("Row")


class Table(Mapping[str, Row]):
    """The rows of one table by name, in the order written.

    The files are read when the first name is asked for, and a row is made when it is asked for: a check of one
    job pays for the few rows it names.
    """

    def __init__(
        self,
        read: Callable[[Line], Row],
        name_of: Callable[[Line], str],
        files: tuple[Path, ...] = (),
        lines: Mapping[str, Line] | None = None,
    ) -> None:
        self.read = read
        self.name_of = name_of
        self._files = files
        self._lines = lines
        self._rows: dict[str, Row] = {}
        self._whole: dict[str, Row] | None = None
        self._names_by_cell: dict[str, dict[str, list[str]]] = {}

    @property
    def lines(self) -> Mapping[str, Line]:
        """The lines as written, by name."""
        if self._lines is None:
            found: dict[str, Line] = {}
            for file in self._files:
                for line in lines_of(file.read_text(encoding="utf-8"), file.name):
                    if (name := self.name_of(line)) in found:
                        remedy = "rename or remove one of the two"
                        raise StockError(f"{name!r} twice", "each name once", remedy, line.file)
                    found[name] = line
            self._lines = found
        return self._lines

    def overlaid(self, lines: Mapping[str, Line]) -> Table[Row]:
        """The same table with some lines put over it or after it."""
        return Table(self.read, self.name_of, lines={**self.lines, **lines})

    def having(self, column: str, text: str) -> list[Row]:
        """The rows with that text in a column, in the order written; no other row is made."""
        if column not in self._names_by_cell:
            found: dict[str, list[str]] = {}
            for name, line in self.lines.items():
                found.setdefault(line.optional(column), []).append(name)
            self._names_by_cell[column] = found
        return [self[name] for name in self._names_by_cell[column].get(text, ())]

    def columns(self) -> tuple[str, ...]:
        """The columns any of its lines has."""
        return tuple(dict.fromkeys(column for line in self.lines.values() for column in line.cells))

    def __getitem__(self, name: str) -> Row:
        row = self._rows.get(name)
        if row is None:
            row = self._rows[name] = self.read(self.lines[name])
        return row

    def __contains__(self, name: object) -> bool:
        return name in self.lines

    def __iter__(self) -> Iterator[str]:
        return iter(self.lines)

    def __len__(self) -> int:
        return len(self.lines)

    def values(self) -> ValuesView[Row]:
        """Every row. A bill goes through them by the hundred: the rows are put in one dictionary, once."""
        if self._whole is None:
            self._whole = {name: self[name] for name in self.lines}
        return self._whole.values()
