"""A shop's own sheet, CSV or XLSX, as rows of text with the line each stands on."""

from __future__ import annotations

import csv
import io
import re
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from xml.etree import ElementTree

from lakewright.errors import Mistake

MOST_BYTES = 20_000_000  # ours: a shop of 20,000 parts writes 5 MB
MOST_COLUMNS = 256  # ours: tables here have 25; a sheet has 16,384, and a stray cell in the last would cost as much

_MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
_LINK = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}id"
_RELATION = "{http://schemas.openxmlformats.org/package/2006/relationships}Relationship"


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


def _spreadsheet(data: bytes) -> Iterator[SheetRow]:
    """The rows of the first sheet of an XLSX file; what a formula gave when it was saved is its cell."""
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as book:
            first = _xml(book, "xl/workbook.xml").find(f"{_MAIN}sheets/{_MAIN}sheet")
            link = "" if first is None else first.get(_LINK, "")
            relations = _xml(book, "xl/_rels/workbook.xml.rels").iter(_RELATION)
            target = next((each.get("Target", "") for each in relations if each.get("Id") == link), "")
            place = target.removeprefix("/") if target.startswith("/") else f"xl/{target}"
            shared = ["".join(text.text or "" for text in item.iter(f"{_MAIN}t")) for item in _shared(book)]
            rows = list(_xml(book, place).iter(f"{_MAIN}row"))
            for count, row in enumerate(rows, start=1):
                yield SheetRow(int(row.get("r", count)), _tidy(_row(row, shared)))
    except (
        zipfile.BadZipFile,
        ElementTree.ParseError,
        KeyError,
        ValueError,
        IndexError,
        RuntimeError,
        NotImplementedError,
    ):
        raise Unreadable(0, "a spreadsheet that cannot be opened", "CSV or XLSX", "save it as CSV UTF-8") from None


def _xml(book: zipfile.ZipFile, name: str) -> ElementTree.Element:
    with book.open(name) as file:
        data = file.read(MOST_BYTES + 1)
    # A sheet declares no entities of its own; a file that does is after something else.
    if len(data) > MOST_BYTES or b"<!DOCTYPE" in data or b"<!ENTITY" in data:
        raise ValueError(name)
    return ElementTree.fromstring(data)


def _shared(book: zipfile.ZipFile) -> Iterator[ElementTree.Element]:
    name = "xl/sharedStrings.xml"
    return _xml(book, name).iter(f"{_MAIN}si") if name in book.namelist() else iter(())


def _row(row: ElementTree.Element, shared: list[str]) -> list[str]:
    cells: dict[int, str] = {}
    for count, cell in enumerate(row.iter(f"{_MAIN}c")):
        letters = re.match(r"[A-Z]{1,3}", cell.get("r", ""))
        at = _column(letters[0]) if letters else count
        if at < MOST_COLUMNS:
            cells[at] = _cell(cell, shared)
    return [cells.get(at, "") for at in range(max(cells, default=-1) + 1)]


def _column(letters: str) -> int:
    """Which column its letters name, counted from 0: A 0, Z 25, AA 26."""
    at = 0
    for letter in letters:
        at = at * 26 + ord(letter) - ord("A") + 1
    return at - 1


def _cell(cell: ElementTree.Element, shared: list[str]) -> str:
    kind = cell.get("t", "n")
    if kind == "inlineStr":
        return "".join(text.text or "" for text in cell.iter(f"{_MAIN}t"))
    value = cell.findtext(f"{_MAIN}v") or ""
    if kind == "s":
        return shared[int(value)]
    if kind == "n" and value:
        return f"{float(value):.12g}"  # 1.05 is kept as 1.0500000000000001
    return value
