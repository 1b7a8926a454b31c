"""Rows of a job file change places, and nothing else moves."""

from __future__ import annotations

import tomllib

import pytest

from lakewright.errors import AskError
from lakewright.job.order import moved

BLOCKS = """# a job
[job]
title = "A"  # kept

# first of all
[[treatment.steps]]
what = "sediment filter"  # coarse

[[treatment.steps]]
what = "carbon filter"
flow = { value = "8 gpm", told = 2026-05-03 }

# the lamp
[[treatment.steps]]
what = "UV"
"""
LISTED = 'site = { soundings = [{ distance = "0 ft", depth = "0 ft" }, { distance = "9 ft", depth = "4 ft" }] } # bed'


def whats(text: str) -> list[str]:
    return [row["what"] for row in tomllib.loads(text)["treatment"]["steps"]]


@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_a_row_goes_before_or_after_its_neighbour_with_its_remarks(end: str) -> None:
    text = BLOCKS.replace("\n", end)
    later = moved(text, "treatment.steps.1", "later")
    assert whats(later) == ["carbon filter", "sediment filter", "UV"]
    assert f'# first of all{end}[[treatment.steps]]{end}what = "sediment filter"  # coarse' in later
    assert sorted(later.splitlines()) == sorted(text.splitlines())
    assert moved(later, "treatment.steps.2", "earlier") == text
    assert whats(moved(text, "treatment.steps.3", "earlier")) == ["sediment filter", "UV", "carbon filter"]


def test_rows_in_brackets_change_places_too() -> None:
    assert moved(LISTED, "site.soundings.2", "earlier") == (
        'site = { soundings = [{ distance = "9 ft", depth = "4 ft" }, { distance = "0 ft", depth = "0 ft" }] } # bed'
    )


def test_the_ends_stay_and_what_is_no_row_is_told() -> None:
    assert moved(BLOCKS, "treatment.steps.1", "earlier") == BLOCKS
    assert moved(BLOCKS, "treatment.steps.3", "later") == BLOCKS
    for row, way in (("treatment.steps.4", "earlier"), ("job.title", "later"), ("treatment.steps.1", "away")):
        with pytest.raises(AskError, match="row"):
            moved(BLOCKS, row, way)
    with pytest.raises(AskError, match="not TOML"):
        moved("[job", "treatment.steps.1", "later")
