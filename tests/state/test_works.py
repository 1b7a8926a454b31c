"""How much work a job is, in metres and pieces, and how many hours that takes."""

from __future__ import annotations

import math
import re
from dataclasses import fields
from fractions import Fraction
from importlib import resources

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lakewright.job.read import read_job_text
from lakewright.state.assemble import facts_of
from lakewright.state.labour import half_days, hours_counted, stints_of, tasks
from lakewright.state.works import Works, works_of
from lakewright.stock.load import load_stock


def works(text: str = "", grade: str = "quote", joints: int = 0) -> Works:
    read = read_job_text(f'[job]\ngrade = "{grade}"\n{text}')
    return works_of(read, facts_of(read, load_stock()), joints)


LINE = """
[stand]
form = "upright"
legs = 3
at = "60 m"
[suction]
along = "0 %"
[pump]
distance = "10 m"
[delivery]
length = "40 m"
"""


def lengths(found: Works) -> tuple[float, float, float, float]:
    return found.water_length, found.bank_length, found.digger_length, found.hand_length


@pytest.mark.parametrize(
    "text, found",
    [
        ('[need]\nseason = "hauled"', (60.0, 50.0, 0.0, 0.0)),
        ('[need]\nseason = "year-round"\n[access]\ndigger = "yes"', (60.0, 0.0, 50.0, 0.0)),
        ('[need]\nseason = "year-round"\n[access]\ndigger = "no"', (60.0, 0.0, 0.0, 50.0)),
        ("", (60.0, 0.0, 50.0, 0.0)),
    ],
)
def test_lines_are_laid_in_water_on_the_ground_and_in_trenches(text: str, found: tuple[float, ...]) -> None:
    assert lengths(works(LINE + text)) == pytest.approx(found)


# Buried from 15 m out: 15 m of trench at low water and 10 m of bank; the line to the house lies on the ground.
def test_a_line_buried_at_low_water_is_dug_and_laid() -> None:
    text = LINE.replace('along = "0 %"', 'along = "0 %"\nburied_from = "15 m"').replace(
        '"40 m"', '"40 m"\nburied = false'
    )
    assert lengths(works(text)) == pytest.approx((60.0, 40.0, 25.0, 0.0))


def test_a_length_given_whole_is_split_at_the_waters_edge() -> None:
    text = LINE.replace('along = "0 %"', 'length = "80 m"') + '[need]\nseason = "drained"'
    assert lengths(works(text)) == pytest.approx((70.0, 50.0, 0.0, 0.0))


def test_what_is_there_and_stays_is_no_work() -> None:
    kept = "\n".join(f'[have.{part}]\npart = "{part}"\nkeep = true' for part in ("stand", "line", "pump", "tank"))
    found = works(LINE + '[need]\nseason = "drained"\n' + kept, joints=2)
    assert (found.stands, found.legs, found.set_from_boat, found.pumps, found.tanks) == (0.0, 0.0, 0.0, 0.0, 0.0)
    assert lengths(found) == pytest.approx((0.0, 40.0, 0.0, 0.0))
    assert [stint.task.name for stint in stints_of(found, None)] == ["travel", "bank", "joints", "commission"]


def test_what_nobody_says_stays_is_built_anew() -> None:
    assert works('[have.old]\npart = "stand"').stands == 1.0


@pytest.mark.parametrize(
    "form, legs, boat", [("upright", 4.0, 1.0), ("hung", 0.0, 0.0), ("box", 0.0, 0.0), ("floating", 0.0, 1.0)]
)
def test_the_form_says_how_a_stand_is_set(form: str, legs: float, boat: float) -> None:
    found = works(f'[stand]\nform = "{form}"')
    assert (found.legs, found.set_from_boat, found.set_from_shore) == (legs, boat, 1.0 - boat)


@pytest.mark.message
def test_a_quote_says_what_it_takes_of_the_works() -> None:
    assert {each.key for each in works().assumed} == {
        "works.set_from_boat",
        "works.legs",
        "works.buried [suction] buried_from",
        "works.buried [delivery] buried",
        "works.digger_length",
    }
    assert works().missing == ()


@pytest.mark.message
def test_a_build_takes_nothing_of_the_works_and_names_it() -> None:
    found = works(grade="build")
    assert set(found.missing) == {
        "[stand] at is not given",
        "[stand] form is not given",
        "[stand] legs is not given",
        "[pump] distance is not given",
        "[delivery] length is not given",
        "[suction] buried_from is not given",
        "[delivery] buried is not given",
        "[access] digger is not given",
    }
    assert all(math.isnan(value) for value in (found.set_from_boat, found.legs, *lengths(found)[:3]))


# The table of tasks.


def test_tasks_name_quantities_of_the_works() -> None:
    names = {each.name for each in fields(Works)} - {"assumed", "missing"}
    assert {quantity for task in tasks() for quantity in (task.when, *task.each)} == names
    assert {task.needs for task in tasks()} == {"", "boat", "digger"}
    assert {task.where for task in tasks()} == {"bench", "site"}
    assert all(task.crew >= 1 and task.base >= 0.0 for task in tasks())


def test_every_figure_of_the_tasks_says_whose_it_is() -> None:
    text = resources.files("lakewright.job").joinpath("tasks.toml").read_text(encoding="utf-8")
    figures = [line for line in text.splitlines() if re.match(r"(base|each|crew) = (?!\{\})", line)]
    assert len(figures) == sum(2 + bool(task.each) for task in tasks())
    assert [line for line in figures if not re.search(r"# (ours|common practice, no source): \w", line)] == []


@pytest.mark.law
@given(quarters=st.integers(0, 10_000))
def test_hours_are_counted_by_the_half_begun(quarters: int) -> None:
    hours = hours_counted(900.0 * quarters)
    assert hours is not None
    assert 0 <= hours - Fraction(quarters, 4) < Fraction(1, 2)
    assert half_days(hours, Fraction(4)) == -(-hours // 4)
