"""The lists read back by another library: every sum is the bill's to the cent, every formula gives what it says."""

from __future__ import annotations

import csv
import io
import re
from dataclasses import replace
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import openpyxl
import pytest

from lakewright.api.list_sheets import list_files, tables_of
from lakewright.api.read import read
from lakewright.api.report import report_on
from lakewright.documents.lists import LEVELS, Table, Worked
from lakewright.documents.workbook import table_csv, xlsx
from lakewright.errors import AskError
from lakewright.state.bill import Bill, bill_of
from lakewright.state.cut_list import making_of
from lakewright.state.quote import Quote
from lakewright.state.stand import stand_of
from tests.job.example import EXAMPLE

pytestmark = pytest.mark.law

EXAMPLES = [path for path in sorted(EXAMPLE.parent.glob("*.toml")) if path.stem != "no_suction_pump"]
IDS = [path.stem for path in EXAMPLES]
POUND, INCH = 0.45359237, 0.0254

ODD = (
    *("=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "=cmd|' /C calc'!A0", '=HYPERLINK("x")'),
    *("\u05e9\u05dc\u05d5\u05dd \u05e2\u05d5\u05dc\u05dd", "\u0645\u0631\u062d\u0628\u0627"),
    *("\u00e9\u00e8 \u0142\u00f3d\u017a", "\u6c34", "<b>&amp;</b> ]]>", "#set text()", '"quoted", and; parted'),
    *("http://x.invalid", "_x0041_", "{bought}", "1/2", "007"),
)
"""What people may call a part or a job."""


@cache
def made(path: Path) -> tuple[tuple[Table, ...], dict[str, Bill], Quote, str, bytes]:
    job, stock, assembly = read(path)
    report = report_on(job, assembly, stock=stock)
    assert report.priced is not None
    levels = {
        level: bill_of(job.model_copy(update={"price": job.price.model_copy(update={"level": level})}), stock, assembly)
        for level in LEVELS
    }
    files = list_files(job, stock, assembly, report)
    return tables_of(job, stock, assembly, report), levels, report.priced.quote, report.units, files["lists.xlsx"]


def book(content: bytes, worked: bool) -> Any:
    return openpyxl.load_workbook(io.BytesIO(content), data_only=not worked)


def worked_out(sheet: Any, formula: str) -> float:
    """What a formula gives, from the cells as they stand; those it names may be formulas themselves."""

    def value(place: str) -> Fraction:
        cell = sheet[place].value
        if isinstance(cell, str) and cell.startswith("="):
            return Fraction(worked_out(sheet, cell))
        return Fraction(0) if cell is None else Fraction(cell)

    def summed(found: re.Match[str]) -> str:
        cells = [row[0].coordinate for row in sheet[f"{found[1]}:{found[2]}"]]
        return f"({' + '.join(f'V({place!r})' for place in cells)})"

    text = re.sub(r"SUM\((\w+):(\w+)\)", summed, formula.removeprefix("="))
    text = re.sub(r"(?<![\w'])([A-Z]\d+)(?![\w'])", r"V('\1')", text)
    return float(eval(text, {"V": value, "ROUND": round}))  # only what the list itself says


def heads(sheet: Any) -> dict[str, int]:
    return {cell.value: cell.column for cell in sheet[4]}


def column(sheet: Any, head: str, until: str = "total") -> list[Any]:
    """The cells of a column over the row of sums, and that row's own last."""
    place, cells = heads(sheet)[head], []
    for row in range(5, sheet.max_row + 1):
        cells.append(sheet.cell(row, place).value)
        if sheet.cell(row, 1).value == until:
            return cells
    raise AssertionError(until)


@pytest.mark.parametrize("path", EXAMPLES, ids=IDS)
def test_the_three_prices_are_those_of_the_bill_to_the_cent(path: Path) -> None:
    _, bills, _, _, content = made(path)
    sheet = book(content, worked=False)["Parts"]
    for level in LEVELS:
        head = next(head for head in heads(sheet) if head in (level, f"{level}, this job\u2019s"))
        *lines, total = column(sheet, head)
        assert [round(100 * price) for price in lines] == [line.price for line in bills[level].lines]
        assert all(abs(100 * price - round(100 * price)) < 1e-9 for price in [*lines, total])
        assert round(100 * total) == bills[level].price
    assert bills["trade"].price < bills["counter"].price


@pytest.mark.parametrize("path", EXAMPLES, ids=IDS)
def test_the_price_is_the_quote_and_says_its_cost(path: Path) -> None:
    _, _, quote, _, content = made(path)
    sheet = book(content, worked=False)["Price"]
    end = next(row for row in range(5, sheet.max_row + 1) if str(sheet.cell(row, 4).value or "") == "") - 1
    asked, cost = (sheet.cell(end, heads(sheet)[head]).value for head in ("asked", "cost"))
    assert round(100 * asked) == quote.total
    assert round(100 * cost) == quote.cost + quote.tax


@pytest.mark.parametrize("path", EXAMPLES, ids=IDS)
def test_every_formula_gives_the_value_that_stands_beside_it(path: Path) -> None:
    content = made(path)[-1]
    live, still = book(content, worked=True), book(content, worked=False)
    seen = 0
    for sheet in live:
        for row in sheet.iter_rows():
            for cell in row:
                if cell.data_type == "f":
                    seen += 1
                    shown = still[sheet.title][cell.coordinate].value
                    assert worked_out(sheet, cell.value) == pytest.approx(shown, abs=1e-9), (sheet.title, cell.value)
    assert seen > 100


@pytest.mark.parametrize("path", EXAMPLES, ids=IDS)
def test_a_price_that_is_changed_changes_the_sum(path: Path) -> None:
    sheet = book(made(path)[-1], worked=True)["Parts"]
    place = next(number for head, number in heads(sheet).items() if head.startswith("trade") and head.endswith("each"))
    end = len(column(sheet, "station")) + 4
    before = worked_out(sheet, sheet.cell(end, place + 1).value)
    bought = sheet.cell(5, heads(sheet)["bought"]).value
    sheet.cell(5, place).value += 10
    assert worked_out(sheet, sheet.cell(end, place + 1).value) == pytest.approx(before + 10 * bought)


@pytest.mark.parametrize("path", EXAMPLES, ids=IDS)
def test_weights_and_cut_lengths_are_those_of_bill_and_stand(path: Path) -> None:
    _, bills, _, system, content = made(path)
    workbook = book(content, worked=False)
    weights = column(workbook["Parts"], f"weight, {'lb' if system == 'US' else 'kg'}")
    scale = POUND if system == "US" else 1.0
    assert weights[-1] * scale == pytest.approx(bills["counter"].mass)
    job, stock, assembly = read(path)
    pieces = making_of(stand_of(job, stock, assembly), stock).pieces
    sheet = workbook["Cut list"]
    step = INCH if system == "US" else 0.001
    cut = column(sheet, f"each, {'in' if system == 'US' else 'mm'}", until="in all")[: len(pieces)]
    assert [length * step for length in cut] == pytest.approx([piece.length for piece in pieces], abs=1e-8)
    whole = column(sheet, f"length, {'in' if system == 'US' else 'mm'}", until="in all")[-1]
    assert whole * step == pytest.approx(sum(piece.length * piece.count for piece in pieces), abs=1e-7)


@pytest.mark.parametrize("path", EXAMPLES, ids=IDS)
def test_each_list_as_csv_says_the_same(path: Path) -> None:
    tables, *_, content = made(path)
    workbook = book(content, worked=False)
    for table in tables:
        rows = list(csv.reader(io.StringIO(table_csv(table))))
        assert rows[0] == [column.head for column in table.columns]
        for row, line in enumerate(rows[1 : len(table.rows) + 2]):
            for place, said in enumerate(line):
                shown = workbook[table.name].cell(row + 5, place + 1).value
                if isinstance(shown, (int, float)):
                    assert float(said) == pytest.approx(shown, abs=0.051)
                else:
                    assert said == (shown or "")


def test_no_words_of_anybodys_are_a_formula_and_all_of_them_stay_as_typed() -> None:
    tables = made(EXAMPLES[0])[0]
    parts = tables[0]
    place = [column.head for column in parts.columns].index("part")
    rows = tuple((*parts.rows[0][:place], words, *parts.rows[0][place + 1 :]) for words in ODD)
    odd = replace(parts, rows=rows, notes=ODD)
    for title in ODD:
        content = xlsx([odd], title, title, None, "SI")
        sheet = book(content, worked=True)["Parts"]
        assert sheet["A1"].value == f"{title}: parts"
        assert sheet["A2"].value == title
        assert {sheet["A1"].data_type, sheet["A2"].data_type} == {"s"}
    cells = [sheet.cell(row, place + 1) for row in range(5, 5 + len(ODD))]
    assert [cell.value for cell in cells] == list(ODD)
    assert {cell.data_type for cell in cells} == {"s"}
    assert all(cell.hyperlink is None for cell in cells)
    notes = [sheet.cell(row, 1) for row in range(len(ODD) + 7, 2 * len(ODD) + 7)]
    assert [note.value for note in notes] == list(ODD)
    assert {note.data_type for note in notes} == {"s"}
    said = [row[place] for row in csv.reader(io.StringIO(table_csv(odd)))][1 : len(ODD) + 1]
    assert [cell.removeprefix("'") for cell in said] == list(ODD)
    assert [cell for cell in said if cell[:1] in "=+-@\t"] == []


def test_a_formula_names_only_heads_that_are_there() -> None:
    for path in EXAMPLES:
        for table in made(path)[0]:
            known = {column.head for column in table.columns}
            assert len(known) == len(table.columns)
            named = {
                head
                for row in table.rows
                for cell in row
                if isinstance(cell, Worked)
                for head in re.findall(r"\{([^}]*)\}", cell.formula)
            }
            assert named <= known


@pytest.mark.message
def test_where_nothing_is_built_there_is_nothing_to_list() -> None:
    job, stock, assembly = read(EXAMPLE.parent / "no_suction_pump.toml")
    with pytest.raises(AskError, match="no lists: no suction pump will do here"):
        list_files(job, stock, assembly, report_on(job, assembly, stock=stock))
