"""A draft that is changed: what stands in it, and on whose word, is that of the value that is there now."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from lakewright.api.look import STANDINGS, changed, fields
from lakewright.job.read import read_job_text

TEXT = (Path(__file__).resolve().parents[2] / "examples" / "year_round_cabin.toml").read_text(encoding="utf-8")
TODAY = "2026-11-25"


def after(key: str, value: str, text: str = TEXT, said: str | None = None) -> Any:
    """What stands in a field after it was changed, as the file has it; the rest of the file is as before."""
    made = changed(text, {key: value}, {} if said is None else {key: said}, TODAY)
    read_job_text(made)
    found, before = tomllib.loads(made), tomllib.loads(text)
    table, _, name = key.rpartition(".")
    for data in (found, before):
        here = data
        for part in table.split("."):
            here = here.setdefault(part, {})
        data["taken"] = here.pop(name, None)
    taken = found.pop("taken")
    before.pop("taken")
    assert found == before
    return taken


def shown(word: str, value: str) -> dict[str, str]:
    """A value with its standing as plain data, dates as text."""
    return {"value": value, word: TODAY}


def as_text(taken: Any) -> Any:
    return {name: str(each) for name, each in taken.items()} if isinstance(taken, dict) else taken


def test_a_value_that_is_changed_is_no_longer_measured_when_the_old_one_was() -> None:
    assert as_text(after("stand.at", "165 ft")) == shown("told", "165 ft")


def test_the_note_beside_the_old_value_goes_with_it() -> None:
    assert as_text(after("site.levels.low", "-3 ft")) == shown("told", "-3 ft")


@pytest.mark.parametrize("word", STANDINGS)
@pytest.mark.parametrize(
    "key, value", [("stand.at", "165 ft"), ("stand.riser", "20 in"), ("site.levels.waves", "2 ft")]
)
def test_it_has_the_standing_one_says_today(key: str, value: str, word: str) -> None:
    assert as_text(after(key, value, said=word)) == shown(word, value)


def test_a_standing_may_be_said_of_a_value_that_stays() -> None:
    assert as_text(after("stand.at", "170 ft", said="measured")) == shown("measured", "170 ft")
    assert as_text(after("stand.at", "170 ft", said="")) == {"value": "170 ft"}


def test_a_value_that_had_none_and_is_given_none_has_none() -> None:
    assert after("delivery.cut_in", "32 psi") == "32 psi"


def test_what_lies_between_keeps_what_is_said_of_it() -> None:
    assert as_text(after("stand.at", "150 ft..180 ft", said="assumed")) == shown("assumed", "150 ft..180 ft")


def test_what_is_left_open_or_taken_out_is_on_nobodys_word() -> None:
    assert as_text(after("stand.at", "open", said="measured")) == {"value": "open"}
    assert after("stand.at", "") is None


def test_a_choice_takes_no_standing() -> None:
    assert after("stand.form", "side", said="measured") == "side"


def test_a_second_change_on_the_same_day_changes_the_value_alone() -> None:
    once = changed(TEXT, {"stand.at": "165 ft"}, {}, TODAY)
    twice = changed(once, {"stand.at": "160 ft"}, {}, TODAY)
    assert once.replace("165 ft", "160 ft") == twice


def test_a_field_says_on_whose_word_it_is_and_between_what_it_lies() -> None:
    text = changed(TEXT, {"stand.at": "150 ft..180 ft", "stand.riser": "open"}, {"stand.at": "told"}, TODAY)
    at, riser, form, low = fields(text, ("stand.at", "stand.riser", "stand.form", "site.levels.low"))
    assert (at.standing, at.since, at.note, at.ends) == ("told", TODAY, "", ("150 ft", "180 ft"))
    assert riser.is_open
    assert not form.takes_standing
    assert (low.standing, low.since) == ("told", "2026-05-03")
    assert low.note.startswith("lowest seen")
    assert low.ends is None
