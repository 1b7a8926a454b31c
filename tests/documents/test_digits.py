"""Nothing is printed finer than the trade reads it: four digits at most, but for money, dates and whole counts."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from lakewright.api.packet import sheets_of
from lakewright.documents.flow import Flow
from lakewright.documents.scene import Text
from lakewright.report_lines import report_lines
from tests.documents.packets import EXAMPLES, told

pytestmark = pytest.mark.law

SAID_AS_IT_IS = ("fixed.", "job.", "stated.")
"""Sources of words that somebody wrote, numbers and all."""

EXACT = re.compile(r"\d{4}-\d\d-\d\d|\$[\d,.]+")
"""Dates and money."""

NUMBER = re.compile(r"(?<![\w.,])\d[\d,]*(?:\.\d+)?(?!\w)")


def too_fine(text: str) -> list[str]:
    """Numbers of more than four digits, noughts at the ends apart.

    >>> too_fine("17857 L/day, 12.345 m, 5280 ft, 17860 L/day, 0.0123 in, $12,345.67 by 2026-05-09, +1234.5 ft")
    ['17857', '12.345', '1234.5']
    """
    return [found for found in NUMBER.findall(EXACT.sub("", text)) if is_too_fine(found)]


def is_too_fine(number: str) -> bool:
    digits = number.replace(",", "")
    return len(digits.replace(".", "").lstrip("0") if "." in digits else digits.rstrip("0")) > 4


def words_of(path: Path) -> Iterator[tuple[str, str]]:
    """All that every sheet of an example prints, and where it stands."""
    for name, sheet in sheets_of(told(path), (), True).items():
        if isinstance(sheet, Flow):
            said = [words for words in sheet.printed if not words.path.startswith(SAID_AS_IT_IS)]
            # A source is named by its articles, as 430.22.
            yield from ((f"{name}: {words.path}", words.text) for words in said if not words.path.endswith(".source"))
        else:
            yield from ((name, shape.words) for shape in sheet.scene.flat() if isinstance(shape, Text))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_no_sheet_prints_a_number_finer_than_the_trade_reads_it(path: Path) -> None:
    words = list(words_of(path))
    assert len(words) > 300
    assert [(place, found) for place, text in words for found in too_fine(text)] == []


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_no_line_on_the_screen_does(path: Path) -> None:
    assert [(line, found) for line in report_lines(told(path).report) for found in too_fine(line)] == []


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_no_fact_of_the_working_is_a_bare_number_with_a_fraction_and_no_name(path: Path) -> None:
    inputs = told(path).say.value("working.inputs")
    assert len({each.name for each in inputs}) == len(inputs)
    assert [each for each in inputs if "_" in each.name or each.figure == ""] == []
