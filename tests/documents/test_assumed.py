"""What is assumed stands on the working to the last of it, and on the quote where a customer can confirm it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache
from pathlib import Path

import pytest

from lakewright.api.packet import told_of
from lakewright.api.paper import PAPER, Told
from lakewright.documents.assumed import OF_THE_SHOP, assumed_figure, assumed_of, is_confirmed
from lakewright.documents.flow import Flow
from lakewright.documents.said import Words
from tests.documents.packets import EXAMPLES, same
from tests.documents.packets import told as told_example
from tests.job.example import EXAMPLE, example_text

pytestmark = pytest.mark.law


@cache
def told(path: Path | None, folder: Path) -> Told:
    """An example made ready for paper; without a path, the cabin of whose price and grade nothing is said."""
    if path is not None:
        return told_example(path)
    text = example_text().replace('grade = "build"', 'grade = "quote"')
    file = folder / EXAMPLE.name
    file.write_text(re.sub(r"(?ms)^\[price\].*?(?=^\[|\Z)", "", text), encoding="utf-8")
    return told_of(file, search=False)


@pytest.fixture(params=[*EXAMPLES, None], ids=lambda path: path.stem if path else "a cabin without a price")
def ready(request: pytest.FixtureRequest, tmp_path: Path) -> Told:
    return told(request.param, tmp_path if request.param is None else Path())


def printed(ready: Told, name: str) -> list[Words]:
    sheet = PAPER[name](ready)
    assert isinstance(sheet, Flow)
    return sheet.printed


def places(printed: Sequence[Words], field: str) -> set[str]:
    """Where of what is assumed the words of a sheet come from: those that end in a field."""
    starts = ("report.assumed.", "report.priced.quote.assumed.")
    return {
        words.path.removesuffix(f".{field}")
        for words in printed
        if words.path.startswith(starts) and words.path.endswith(f".{field}")
    }


def test_all_that_is_assumed_stands_on_the_working(ready: Told) -> None:
    taken, words = assumed_of(ready.say), printed(ready, "working")
    for field in ("name", "why"):
        assert places(words, field) == set(taken)
    text = same(" ".join(each.text for each in words))
    assert [place for place in taken if same(assumed_figure(ready.say, place).text) not in text] == []


def test_the_quote_asks_what_a_customer_can_confirm_and_counts_the_rest(ready: Told) -> None:
    taken, words = assumed_of(ready.say), printed(ready, "quote")
    asked = {place for place, each in taken.items() if is_confirmed(each)}
    record = {place for place, each in taken.items() if each.from_record}
    assert places(words, "name") == asked | record
    text = same(" ".join(each.text for each in words))
    rest = len(taken) - len(asked | record)
    assert (f"What else is assumed, {rest} usual figures" in text) is (rest > 0)


def test_what_a_shop_adds_to_its_costs_is_on_no_paper(ready: Told) -> None:
    for name in ("quote", "working"):
        assert "markup" not in same(" ".join(each.text for each in printed(ready, name)))


def test_what_is_left_out_is_the_markup_alone(tmp_path: Path) -> None:
    report = told(None, tmp_path).report
    assert report.priced is not None
    keys = [each.key for each in (*report.assumed, *report.priced.quote.assumed)]
    kept = [each.key for each in assumed_of(told(None, tmp_path).say).values()]
    assert sorted(set(keys) - set(kept)) == list(OF_THE_SHOP)
    assert len(keys) == len(kept) + 1


def test_a_customer_is_asked_a_quarter_to_a_half_of_what_a_quote_assumes() -> None:
    (path,) = (each for each in EXAMPLES if each.stem == "no_suction_pump")
    taken = assumed_of(told_example(path).say)
    asked = sum(is_confirmed(each) for each in taken.values())
    assert 10 <= asked <= 20
    assert len(taken) > 50
