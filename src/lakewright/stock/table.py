"""Tables of text: lines, cells, and the words for a cell that will not do."""

from __future__ import annotations

import csv
import itertools
import math
from collections.abc import Iterator, Mapping

from lakewright.errors import StockError
from lakewright.stock.rows import Points


class Line:
    """One line of a table, which knows where it stands so that a bad cell can be named."""

    def __init__(self, file: str, place: int, cells: Mapping[str, str]) -> None:
        self.file = file
        self.place = place
        self.cells = cells

    def wrong(self, column: str, found: str, wanted: str, remedy: str) -> StockError:
        """The error for one cell, in the four parts."""
        return StockError(f"{self.file}, line {self.place}, {column}: found {found}; wanted {wanted}; {remedy}")

    def text(self, column: str) -> str:
        """The cell as written."""
        return self.cells[column]

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
        return self._number_in(column, self.cells[column]) * unit

    def above_zero(self, column: str, unit: float = 1.0) -> float:
        """The cell as a number above 0, times its unit."""
        value = self.number(column, unit)
        if value == 0.0:
            raise self.wrong(column, repr(self.cells[column]), "a number above 0", "look it up and write it in")
        return value

    def number_or_nan(self, column: str) -> float:
        """The cell as a number, nan when it is left empty."""
        return self.number(column) if self.cells[column] else math.nan

    def share(self, column: str) -> float:
        """The cell as a share above 0 and up to 1."""
        value = self.above_zero(column)
        if value > 1.0:
            raise self.wrong(column, repr(self.cells[column]), "a share up to 1", "write 50 % as 0.5")
        return value

    def whole(self, column: str) -> int:
        """The cell as a whole number."""
        text = self.cells[column]
        if not (text.isascii() and text.isdigit()):
            raise self.wrong(column, repr(text), "a whole number", "write cents, so 12.50 as 1250")
        return int(text)

    def numbers(self, column: str, unit: float = 1.0) -> Points:
        """The cell as numbers parted by spaces, times their unit."""
        values = tuple(self._number_in(column, part) * unit for part in self.cells[column].split())
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
    columns: list[str] = []
    for number, line in enumerate(text.splitlines(), start=1):
        if not line or line.startswith("#"):
            continue
        cells = next(csv.reader([line]))
        if not columns:
            columns = cells
        elif len(cells) != len(columns):
            counts = f"found {len(cells)} cells; wanted {len(columns)}, one a column"
            raise StockError(f"{file}, line {number}: {counts}; put a text with commas between double quotes")
        else:
            yield Line(file, number, dict(zip(columns, cells, strict=True)))
