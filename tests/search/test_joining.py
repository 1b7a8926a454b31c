"""Parts that no fitting in stock joins are no candidates; whatever joins by the rule joins in the bill."""

from __future__ import annotations

import csv
from itertools import islice
from pathlib import Path

import numpy as np
import pytest

from lakewright.search.option import said
from lakewright.search.options import problem_of
from lakewright.search.parts import Problem
from lakewright.state.assemble import facts_of
from lakewright.state.bill import bill_of
from lakewright.stock.load import Stock, load_stock
from lakewright.stock.overlay import overlay
from tests.search.problems import job_with

pytestmark = pytest.mark.law

OPEN = {"delivery.stock": "open"}
ODD = [
    {"name": "a strange pump", "like": "centrifugal, two-stage, 3/4 hp", "outlet": "4"},
    {"name": "a strange tank", "like": "diaphragm tank, 62 gal", "connection": "4"},
]


def shop_with(folder: Path, rows: list[dict[str, str]]) -> Stock:
    """Our stock with some rows of a shop's own over it."""
    file = folder / "own.csv"
    with file.open("w", newline="", encoding="utf-8") as handle:
        table = csv.DictWriter(handle, list(dict.fromkeys(key for row in rows for key in row)), restval="")
        table.writeheader()
        table.writerows(rows)
    stock, mistakes = overlay(load_stock(), file)
    assert mistakes == ()
    return stock


def searched(stock: Stock) -> Problem:
    job = job_with(OPEN)
    return problem_of(job, stock, facts_of(job, stock))


def gaps(stock: Stock, problem: Problem, **named: str) -> list[str]:
    """What the bill of the first design says does not join, with some options in their places."""
    job = job_with(OPEN)
    for part in problem.parts:
        label = named.get(part.name)
        job = said(job, part.says[part.labels.index(label) if label else 0])
    return [gap for gap in bill_of(job, stock, facts_of(job, stock)).gaps if "do not join" in gap]


def test_shop_rows_that_nothing_joins_are_dropped(tmp_path: Path) -> None:
    stock = shop_with(tmp_path, ODD)
    ours, problem = searched(load_stock()), searched(stock)
    assert {(pair.one, pair.other) for pair in ours.pairs} == {("line", "pump")}
    assert {(pair.one, pair.other) for pair in problem.pairs} == {
        ("line", "pump"),
        ("pump", "delivery"),
        ("delivery", "tank"),
    }
    pairs = {pair.one: pair.joins for pair in problem.pairs}
    pump = problem.part("pump").labels.index("a strange pump")
    tank = problem.part("tank").labels.index("a strange tank")
    lines = problem.part("delivery").labels
    for n, name in islice(enumerate(lines), 0, None, 7):
        assert pairs["pump"][pump, n] == (gaps(stock, problem, pump="a strange pump", delivery=name) == [])
        assert pairs["delivery"][n, tank] == (gaps(stock, problem, tank="a strange tank", delivery=name) == [])
    assert not pairs["pump"][pump].all()
    assert not pairs["delivery"][:, tank].all()
    # Every other design is still there.
    both = np.delete(pairs["pump"], pump, axis=0), np.delete(pairs["delivery"], tank, axis=1)
    assert all(mask.all() for mask in both)


def test_what_joins_by_the_rule_joins_in_the_bill() -> None:
    stock, problem = load_stock(), searched(load_stock())
    draw = np.random.default_rng(3)
    pairs = {pair.one: pair.joins for pair in problem.pairs}
    names = ("line", "pump", "delivery", "tank")
    for _ in range(24):
        option = {name: int(draw.integers(0, problem.part(name).size)) for name in names}
        if pairs["line"][option["line"], option["pump"]]:
            labels = {name: problem.part(name).labels[n] for name, n in option.items()}
            assert gaps(stock, problem, **labels) == [], labels
