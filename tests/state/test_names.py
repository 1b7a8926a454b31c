"""What facts are called: plain words, one name each, and only names that something has."""

from __future__ import annotations

import dataclasses

import pytest

from lakewright.job.fields import shape_at
from lakewright.state.facts import every_fact
from lakewright.state.gather import defaults
from lakewright.state.names import TRADE_WORDS, plain_name
from lakewright.state.works import Works


@pytest.mark.law
def test_every_name_in_the_table_is_a_fact_or_a_field_of_the_job() -> None:
    # What is assumed has a name too, and what a task of the work is counted by.
    works = {f"works.{each.name}" for each in dataclasses.fields(Works)}
    facts = {*every_fact(), *defaults(), *works}
    strangers = {
        name
        for name in TRADE_WORDS
        if name not in facts and shape_at(tuple(name.split("."))) is None and name != "site.days.level"
    }
    assert strangers == set()


@pytest.mark.message
@pytest.mark.parametrize("name", sorted({*every_fact(), *TRADE_WORDS}))
def test_no_name_is_written_as_a_program_would(name: str) -> None:
    said = plain_name(name)
    assert said.strip()
    assert not set(said) & set("._[]")


@pytest.mark.message
@pytest.mark.parametrize(
    "key, words",
    [
        ("stand.frame", "frame height"),
        ("[stand.inlet] stock", "foot valve"),
        ("[[site.days]] ice", "days ice"),
        ("limits.lift_ceiling", "limits lift ceiling"),
    ],
)
def test_plain_name(key: str, words: str) -> None:
    assert plain_name(key) == words
