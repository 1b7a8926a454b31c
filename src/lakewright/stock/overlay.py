"""The shop's own rows over ours, from a sheet: good rows are taken, and each bad one is named.

The first row names the columns: those of our tables, and name, like and table. A row that says like is the same
as that part but for the cells it fills; a row with the name of one of ours is the same as that one but for
them; any other row names its table and fills every cell. A lone - empties a cell.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from lakewright.errors import Mistake
from lakewright.stock.load import Stock
from lakewright.stock.sheet import SheetRow, rows_of
from lakewright.stock.table import CellError, Line, Table

OVERLAID = ("pipes", "foot_valves", "screens", "pumps", "jets", "tanks", "parts")
"""The tables a shop may add to. Losses and make-up have sources, and are not overlaid."""

OWN_COLUMNS = ("name", "like", "table")


@dataclass
class _Reading:
    """What has been read so far."""

    tables: Mapping[str, Table[Any]]
    columns: Mapping[str, tuple[str, ...]]
    file: str
    taken: dict[str, dict[str, Line]] = field(default_factory=lambda: {name: {} for name in OVERLAID})
    seen: dict[str, int] = field(default_factory=dict)

    def home_of(self, name: str) -> str:
        """The table that has a name; nothing where none has."""
        return next((t for t in OVERLAID if name in self.taken[t] or name in self.tables[t]), "")

    def line_of(self, table: str, name: str) -> Line:
        """The line of a name, the shop's own before ours."""
        return self.taken[table].get(name) or self.tables[table].lines[name]


def overlay(stock: Stock, path: Path) -> tuple[Stock, tuple[Mistake, ...]]:
    """The stock with a shop's sheet over it, and every row of the sheet that could not be taken, in its order."""
    rows, mistakes = rows_of(path)
    tables = stock.tables()
    columns = {name: tables[name].columns() for name in OVERLAID}
    reading = _Reading(tables, columns, path.name)
    if not rows:
        nothing = Mistake(path.name, 0, "", "no rows", "the names of columns, and a row a part", "write them in")
        return stock, tuple(mistakes or [nothing])
    heading, wrong = _heading(rows[0], reading)
    mistakes += wrong
    if heading:
        for row in rows[1:]:
            try:
                _take(row, heading, reading)
            except CellError as error:
                mistakes.append(error.mistake)
    over = {name: tables[name].overlaid(lines) for name, lines in reading.taken.items() if lines}
    return replace(stock, **over), tuple(sorted(mistakes, key=lambda mistake: mistake.line))


def _heading(row: SheetRow, reading: _Reading) -> tuple[tuple[str, ...], list[Mistake]]:
    """The columns of a sheet, nothing where they cannot be used; a column nobody knows is named and passed over."""
    heading = tuple("_".join(cell.lower().replace("-", " ").split()) for cell in row.cells)
    known = dict.fromkeys([*OWN_COLUMNS, *(column for table in OVERLAID for column in reading.columns[table])])

    def mistake(key: str, found: str, wanted: str, remedy: str) -> Mistake:
        return Mistake(reading.file, row.line, key, found, wanted, remedy)

    if "name" not in heading:
        found = f"the columns {', '.join(filter(None, row.cells))}"
        return (), [mistake("", found, "a column called name in the first row", "name the columns as our tables do")]
    if twice := [column for column in known if heading.count(column) > 1]:
        return (), [mistake(column, "two columns of that name", "one", "keep one of them") for column in twice]
    strange = [column for column in heading if column and column not in known]
    return heading, [
        mistake(column, "an unknown column, passed over", "a column of our tables", _near(column, known))
        for column in strange
    ]


def _near(word: str, known: Iterable[str]) -> str:
    """What a word may have meant."""
    from difflib import get_close_matches  # only a miss needs it

    lower = {each.lower(): each for each in known}
    near = get_close_matches(word.lower(), lower, n=2, cutoff=0.6)  # ours: two words of three right
    return f"did you mean {' or '.join(repr(lower[each]) for each in near)}?" if near else "take it out, or mend it"


def _take(row: SheetRow, heading: tuple[str, ...], reading: _Reading) -> None:
    """Take one row, or say with a CellError what is wrong with it."""
    cells = dict(zip(heading, row.cells, strict=False))
    line = Line(reading.file, row.line, cells)
    if spare := [cell for cell in row.cells[len(heading) :] if cell]:
        found = f"{spare[0]!r} beyond the last column"
        raise line.wrong("", found, f"{len(heading)} cells", "put a text with commas between double quotes")
    name = cells.get("name", "")
    if not name:
        raise line.wrong("name", "nothing", "a name", "every part has one, yours or ours")
    if name in reading.seen:
        wanted = "each name once"
        raise line.wrong("name", f"{name!r} again, first on line {reading.seen[name]}", wanted, "remove one of the two")
    reading.seen[name] = row.line
    table, base = _base(line, name, cells.get("like", ""), cells.get("table", ""), reading)
    filled = {column: cell for column, cell in cells.items() if cell and column not in OWN_COLUMNS}
    columns = reading.columns[table]
    for column in filled:
        if column not in columns and any(column in each for each in reading.columns.values()):
            raise line.wrong(
                column, repr(filled[column]), f"nothing, in {table}", "empty it: that table has no such column"
            )
    said = f"{reading.file}, line {row.line}" + (f", like {cells['like']}" if cells.get("like") else "")
    origin = {"origin": said} if "origin" in columns else {}
    written = {column: "" if cell == "-" else cell for column, cell in filled.items() if column in columns}
    bare = {column: "" for column in heading if column in columns}
    merged = {**(base or bare), **origin, **written, "name": name}
    complete = Line(reading.file, row.line, merged)
    reading.tables[table].read(complete)
    reading.taken[table][name] = complete


def _base(line: Line, name: str, like: str, table: str, reading: _Reading) -> tuple[str, Mapping[str, str]]:
    """The table a row belongs to, and the cells of the row it is like, none where it stands alone."""
    own = reading.home_of(name)
    if table and table not in OVERLAID:
        raise line.wrong("table", repr(table), f"one of {', '.join(OVERLAID)}", _near(table, OVERLAID))
    if like:
        home = reading.home_of(like)
        if not home:
            every = [each for t in OVERLAID for each in (*reading.taken[t], *reading.tables[t])]
            raise line.wrong("like", repr(like), "the name of a part of ours, or of a row above", _near(like, every))
    else:
        home = own or table
    if not home:
        remedy = f"say like and a part it is like, or table and one of {', '.join(OVERLAID)}"
        raise line.wrong("like", "nothing, and no part of ours of that name", "what it is like", remedy)
    if own and own != home:
        raise line.wrong("name", f"{name!r}, which is one of {own}", f"a new name in {home}", "give it another name")
    if table and table != home:
        raise line.wrong("table", repr(table), f"{home}, where what it is like stands", "empty it")
    based = like or (name if own else "")
    return home, reading.line_of(home, based).cells if based else {}
