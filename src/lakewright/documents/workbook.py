"""Lists as a spreadsheet whose sums are live, and as CSV. Words stay words: no cell of theirs is ever a formula."""

from __future__ import annotations

import csv
import datetime
import io
import math
import re
from collections.abc import Sequence
from importlib import import_module
from typing import Any

from lakewright.documents.lists import Cell, Form, Table, Worked, sum_of, value_of
from lakewright.documents.outcome_tables import inert
from lakewright.documents.parts_list import dollars
from lakewright.errors import AskError

NEEDS_XLSXWRITER = (
    "a spreadsheet is written by xlsxwriter, which is not installed; install it with: pip install 'lakewright[packet]'"
)
NO_DATE = datetime.datetime(1980, 1, 1)
"""ours: what stands for the day of a job without one; a zip file counts from there."""

US_PART = "# ??/16;-# ??/16;0"
FORMATS: dict[Form, str] = {
    "text": "@",
    "money": '"$"#,##0.00;-"$"#,##0.00',
    "count": "0",
    "length": "#,##0.0",
    "part": "0",
    "part_mass": "0.00",
}
"""How a spreadsheet shows each kind of number; a part's length in inches by sixteenths."""

TITLE, MARK, HEAD, FIRST = 0, 1, 3, 4
"""Rows of a sheet: the job, what it was written from, the heads, the first line."""
MOST_LETTERS = 32767
"""What a cell of a spreadsheet holds."""


def xlsx(tables: Sequence[Table], title: str, mark: str, date: datetime.date | None, system: str) -> bytes:
    """A workbook, a sheet a list, each sum a formula with its value beside it; the same lists give the same bytes.

    Parameters
    ----------
    tables : the lists
    title, mark : of the job; what the lists were written from: version and fingerprint
    date : of the job
    system : "US" or "SI"

    Raises
    ------
    AskError where xlsxwriter is not installed
    """
    try:
        # By its name: it is imported where a list is asked for, and types are checked where it need not be installed.
        writer = import_module("xlsxwriter")
    except ImportError:
        raise AskError(NEEDS_XLSXWRITER) from None
    out = io.BytesIO()
    book = writer.Workbook(out, {"in_memory": True})
    made = datetime.datetime(date.year, date.month, date.day) if date else NO_DATE
    book.set_properties({"title": words(title), "created": made})
    forms = {**FORMATS, "part": US_PART} if system == "US" else FORMATS
    looks = {form: book.add_format({"num_format": shown}) for form, shown in forms.items()}
    heavy = {form: book.add_format({"num_format": shown, "bold": True, "top": 1}) for form, shown in forms.items()}
    head = book.add_format({"bold": True, "text_wrap": True, "valign": "bottom", "bottom": 1})
    bold = book.add_format({"bold": True})
    for table in tables:
        sheet = book.add_worksheet(table.name)
        sheet.write_string(TITLE, 0, words(f"{title}: {table.name.lower()}"), bold)
        sheet.write_string(MARK, 0, words(mark))
        for place, column in enumerate(table.columns):
            sheet.set_column(place, place, column.wide)
            sheet.write_string(HEAD, place, column.head, head)
        for number, row in enumerate(table.rows, FIRST):
            for place, cell in enumerate(row):
                _write(sheet, number, place, cell, table, looks[table.columns[place].form])
        end = _total(sheet, table, heavy)
        for number, note in enumerate(table.notes, end + 2):
            sheet.write_string(number, 0, words(note))
        _on_paper(sheet, system)
    book.close()
    return out.getvalue()


def _write(sheet: Any, number: int, place: int, cell: Cell, table: Table, look: Any) -> None:
    form = table.columns[place].form
    if isinstance(cell, str):
        sheet.write_string(number, place, words(cell), look)
    elif isinstance(cell, Worked):
        sheet.write_formula(
            number, place, f"={_with_places(cell.formula, table, number)}", look, _amount(cell.value, form)
        )
    elif math.isfinite(cell):
        sheet.write_number(number, place, _amount(cell, form), look)


def _with_places(formula: str, table: Table, number: int) -> str:
    """A formula with the cells of a row in the place of the heads it names."""
    places = {column.head: f"{_letter(place)}{number + 1}" for place, column in enumerate(table.columns)}
    return re.sub(r"\{([^}]*)\}", lambda found: places[found[1]], formula)


def _letter(place: int) -> str:
    if place >= 26:
        raise ValueError("no list of ours has so many columns")
    return chr(ord("A") + place)


def _total(sheet: Any, table: Table, heavy: dict[Form, Any]) -> int:
    """The row of sums; returns its number."""
    end = FIRST + len(table.rows)
    if not table.rows or not table.total:
        return end
    sheet.write_string(end, 0, words(table.total), heavy["text"])
    for place, column in enumerate(table.columns):
        if column.summed:
            letter = _letter(place)
            every = f"SUM({letter}{FIRST + 1}:{letter}{end})"
            formula = f"=ROUND({every},2)" if column.form == "money" else f"={every}"
            sheet.write_formula(end, place, formula, heavy[column.form], _amount(sum_of(table, place), column.form))
    return end


def _on_paper(sheet: Any, system: str) -> None:
    """How it prints: lying, one page wide, the heads on every page."""
    sheet.freeze_panes(FIRST, 2)
    sheet.set_landscape()
    sheet.set_paper(1 if system == "US" else 9)  # letter and A4 as a spreadsheet counts papers
    sheet.fit_to_pages(1, 0)
    sheet.repeat_rows(HEAD)
    sheet.set_footer("&CPage &P of &N")


def _amount(value: float, form: Form) -> float:
    """A number as its cell holds it: money in dollars, of whole cents."""
    return round(value) / 100.0 if form == "money" else value


def words(text: str) -> str:
    """Words as a cell can hold them."""
    return text[:MOST_LETTERS]


def table_csv(table: Table) -> str:
    """A list as CSV: the heads, the lines, the sums, and what is to be said under it."""
    out = io.StringIO()
    rows = csv.writer(out, lineterminator="\n")
    rows.writerow([column.head for column in table.columns])
    for row in table.rows:
        rows.writerow([_said(value_of(cell), column.form) for cell, column in zip(row, table.columns, strict=True)])
    if table.rows and table.total:
        sums = [
            _said(sum_of(table, place), column.form) if column.summed else ""
            for place, column in enumerate(table.columns)
        ]
        rows.writerow([inert(table.total), *sums[1:]])
    for note in table.notes:
        rows.writerow([inert(note), *[""] * (len(table.columns) - 1)])
    return out.getvalue()


PLACES: dict[Form, int] = {"count": 0, "length": 1, "part": 3, "part_mass": 3}
"""ours: a thousandth of an inch or a millimetre is finer than anyone cuts."""


def _said(value: str | float, form: Form) -> str:
    if isinstance(value, str):
        return inert(value)
    if not math.isfinite(value):
        return ""
    return dollars(round(value)) if form == "money" else f"{value:.{PLACES[form]}f}"
