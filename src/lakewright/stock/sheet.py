"""A shop's own sheet, CSV or XLSX, as rows of text with the line each stands on."""

from __future__ import annotations

import csv
import datetime
import io
import re
import warnings
import zipfile
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from importlib import import_module
from pathlib import Path

from lakewright.errors import AskError, Mistake

MOST_BYTES = 20_000_000  # ours: a shop of 20,000 parts writes 5 MB
MOST_COLUMNS = 256  # ours: tables here have 25; a sheet has 16,384, and a stray cell in the last would cost as much

MOST_ROWS = 1_048_576  # what a spreadsheet has; a row that says it stands further down is a slip
NEEDS_OPENPYXL = (
    "an XLSX sheet is read by openpyxl, which is not installed; install it with: pip install 'lakewright[xlsx]', "
    "or save the sheet as CSV UTF-8"
)
_DECLARES = re.compile(rb"<!(?:DOCTYPE|ENTITY)")
_DAY_NOUGHT = datetime.datetime(1899, 12, 30)  # from which a spreadsheet counts its days


@dataclass(frozen=True, slots=True)
class SheetRow:
    """One row of a sheet: the line it begins on, and its cells without the blanks round them."""

    line: int
    cells: tuple[str, ...]


class Unreadable(Exception):
    """A sheet, or some lines of one, that is no table."""

    def __init__(self, line: int, found: str, wanted: str, remedy: str) -> None:
        super().__init__(found)
        self.line = line
        self.found = found
        self.wanted = wanted
        self.remedy = remedy


def rows_of(path: Path) -> tuple[list[SheetRow], list[Mistake]]:
    """The rows of a sheet that hold anything, `#` lines left out, and what could not be read of it."""
    rows: list[SheetRow] = []
    problems: list[Unreadable] = []
    try:
        data = _bytes_of(path)
        for row in _spreadsheet(data) if data.startswith(b"PK") else _text_rows(data):
            if isinstance(row, Unreadable):
                problems.append(row)
            elif any(row.cells) and not row.cells[0].startswith("#"):
                rows.append(row)
    except Unreadable as problem:
        problems.append(problem)
    return rows, [Mistake(path.name, each.line, "", each.found, each.wanted, each.remedy) for each in problems]


def _bytes_of(path: Path) -> bytes:
    try:
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except OSError as problem:
        found = (problem.strerror or "an error").lower()
        raise Unreadable(
            0, found, "a CSV or XLSX file that can be opened", "mend the name, or close it elsewhere"
        ) from None
    if len(data) > MOST_BYTES:
        raise Unreadable(0, "more than 20 MB", "a list of parts", "keep only the columns of parts")
    if data.startswith(b"\xd0\xcf\x11\xe0"):
        raise Unreadable(0, "a spreadsheet of the old kind", "CSV or XLSX", "save it as CSV UTF-8")
    return data


def _tidy(cells: list[str]) -> tuple[str, ...]:
    return tuple(cell.replace("\xa0", " ").strip() for cell in cells)


def _text_rows(data: bytes) -> Iterator[SheetRow | Unreadable]:
    """The rows of a CSV file, whatever parts its cells: commas, semicolons or tabs."""
    text = _text_of(data)
    if "\0" in text:
        raise Unreadable(0, "bytes that are no text", "CSV or XLSX", "save it as CSV UTF-8")
    heading = next((line for line in text.splitlines() if line.strip(" ,;\t") and not line.startswith("#")), "")
    delimiter = max(",;\t", key=heading.count)
    rows = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    while True:
        begun = rows.line_num + 1
        try:
            yield SheetRow(begun, _tidy(next(rows)))
        except csv.Error:
            last = rows.line_num
            lost = f"line {begun} is" if last <= begun else f"lines {begun} to {last} are"
            found = "a double quote that is not closed, or stands inside a cell"
            yield Unreadable(begun, found, "a pair of them round the whole cell", f"mend it; {lost} not read")
        except StopIteration:
            return


def _text_of(data: bytes) -> str:
    wide = data.startswith((b"\xff\xfe", b"\xfe\xff"))
    # cp1252 is what a spreadsheet writes where it does not say.
    for encoding in ("utf-16",) if wide else ("utf-8-sig", "cp1252"):
        try:
            return data.decode(encoding)
        except UnicodeDecodeError:
            continue
    raise Unreadable(0, "bytes that are no text", "CSV or XLSX", "save it as CSV UTF-8")


def _spreadsheet(data: bytes) -> list[SheetRow]:
    """The rows of the first sheet of an XLSX file; what a formula gave when it was saved is its cell.

    Raises
    ------
    AskError where what reads a spreadsheet is not installed
    """
    try:
        # By its name: types are checked where it need not be installed.
        openpyxl = import_module("openpyxl")
    except ImportError:
        raise AskError(NEEDS_OPENPYXL) from None
    try:
        _refuse_what_swells(data)
        with warnings.catch_warnings(action="ignore"):  # of forms and styles that it drops
            book = openpyxl.load_workbook(io.BytesIO(data), read_only=True, data_only=True, keep_links=False)
            rows = book.worksheets[0].iter_rows(max_row=MOST_ROWS, max_col=MOST_COLUMNS, values_only=True)
            # Rows that are not there come as blanks, a million of them before a stray one at the very end.
            filled = ((line, row) for line, row in enumerate(rows, 1) if row.count(None) < len(row))
            return [SheetRow(line, _tidy(_as_typed(row))) for line, row in filled]
    # Whatever the library stumbles over, the sheet is no spreadsheet that a shop's program saved.
    except Exception:
        raise Unreadable(0, "a spreadsheet that cannot be opened", "CSV or XLSX", "save it as CSV UTF-8") from None


def _refuse_what_swells(data: bytes) -> None:
    """A ValueError where a file is small only as long as it stays packed."""
    with zipfile.ZipFile(io.BytesIO(data)) as book:
        if sum(part.file_size for part in book.infolist()) > 5 * MOST_BYTES:  # ours: room for a picture or two
            raise ValueError("all parts")
        for part in book.infolist():
            if part.file_size > MOST_BYTES:
                raise ValueError(part.filename)
            # A sheet declares no entities of its own; a file that does is after something else.
            if part.filename.endswith((".xml", ".rels")) and _DECLARES.search(book.read(part).replace(b"\0", b"")):
                raise ValueError(part.filename)


def _as_typed(row: Sequence[object]) -> list[str]:
    """A row as text, up to its last cell."""
    cells = [_cell(value) for value in row]
    while cells and not cells[-1]:
        cells.pop()
    return cells


def _cell(value: object) -> str:
    """A cell as text; a date as the spreadsheet's count of days, for a size such as 1/2 may have become one."""
    if isinstance(value, datetime.time):
        value = datetime.datetime.combine(_DAY_NOUGHT, value)
    if isinstance(value, datetime.datetime):
        value -= _DAY_NOUGHT
    if isinstance(value, datetime.timedelta):
        value /= datetime.timedelta(days=1)
    if isinstance(value, (bool, int, float)):
        return f"{float(value):.12g}"  # 1.05 is kept as 1.0500000000000001
    return "" if value is None else str(value)
