"""The list of parts read back: it says what the bill says, and no cell of it is a formula."""

from __future__ import annotations

import csv
import io
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest

from lakewright.api.read import read
from lakewright.documents.parts_list import HEAD, parts_csv
from lakewright.state.bill import Bill, bill_of
from tests.job.example import EXAMPLE

EXAMPLES = sorted(EXAMPLE.parent.glob("*.toml"))
POUND, FOOT = 0.45359237, 0.3048


def bill(path: Path) -> Bill:
    job, stock, assembly = read(path)
    return bill_of(job, stock, assembly)


def rows(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text)))


@pytest.mark.law
@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_what_is_read_back_is_the_bill(path: Path) -> None:
    made = bill(path)
    read_back = rows(parts_csv(made, "US"))
    parts = [row for row in read_back if row["station"] not in ("total", "not in it")]
    assert [row["part"] for row in parts] == [line.what for line in made.lines]
    assert sum(Decimal(row["price"]) for row in parts) * 100 == made.price
    (total,) = (row for row in read_back if row["station"] == "total")
    assert Decimal(total["price"]) * 100 == made.price
    for row, line in zip(parts, made.lines, strict=True):
        written = float(row["quantity"].replace(",", "")) * (FOOT if line.unit == "m" else 1.0)
        assert written == pytest.approx(line.quantity, abs=0.05 * FOOT)
        assert float(row["weight"].replace(",", "")) * POUND == pytest.approx(line.mass, abs=0.0051 * POUND)
    assert [row["part"] for row in read_back if row["station"] == "not in it"] == list(made.gaps)


@pytest.mark.parametrize("start", ["=", "+", "-", "@"])
def test_no_cell_is_a_formula(start: str) -> None:
    made = bill(EXAMPLE)
    odd = replace(made, lines=(replace(made.lines[0], what=f"{start}1+1", note=f"{start}cmd"),), gaps=(f"{start}A2",))
    cells = [cell for row in rows(parts_csv(odd, "SI")) for cell in row.values()]
    assert [cell for cell in cells if cell[:1] == start] == []
    assert f"'{start}1+1" in cells


def test_the_head_names_every_column() -> None:
    assert tuple(rows(parts_csv(bill(EXAMPLE), "US"))[0]) == HEAD
