"""What a job asks of its pump: by whom, together or not, and what a wrong name is told."""

from __future__ import annotations

import dataclasses
import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lakewright import units
from lakewright.errors import Mistake
from lakewright.job.read import read_job_text
from lakewright.sources import load_sources
from lakewright.state.demand import Demand, demand_of
from lakewright.state.demand_tables import FAMILIES, Family, animals, figures, fixtures, named

FAMILY = st.sampled_from(["A", "B"])


def demand(text: str, family: Family = "A", grade: str = "quote") -> Demand:
    return demand_of(read_job_text(f'[job]\ngrade = "{grade}"\n{text}'), family)


def gpm(flow: float) -> str:
    return units.show(flow, "flow", "US")


def branches(found: Demand) -> dict[str, tuple[str, bool]]:
    return {branch.name: (gpm(branch.flow), branch.together) for branch in found.branches}


# What is taken.


@pytest.mark.parametrize(
    "need, flow",
    [
        ("", "7.0 gpm"),
        ("baths = 1", "7.0 gpm"),
        ("baths = 2", "10.0 gpm"),
        ('baths = 2\nhose = "yes"', "15.0 gpm"),
        ('baths = 1\nhose = "no"', "7.0 gpm"),
        ("people = 4", "7.0 gpm"),
        ("people = 12", "10.0 gpm"),
        ('people = 12\nseason = "drained"', "7.5 gpm"),
    ],
)
def test_a_quote_goes_by_practice_until_fixtures_are_named(need: str, flow: str) -> None:
    assert gpm(demand(f"[need]\n{need}").flow) == flow


# 3.6 + 1.4 units are 9.4 gpm in one family, 5 + 1.5 are between 5 and 6 gpm in the other.
@pytest.mark.parametrize("family, flow, units_said", [("A", "9.4 gpm", "5 units"), ("B", "5.5 gpm", "6.5 units")])
def test_a_build_goes_by_the_table_of_its_family(family: Family, flow: str, units_said: str) -> None:
    found = demand("[need]\nbaths = 1\nkitchens = 1", family, "build")
    assert (gpm(found.flow), found.family, found.missing) == (flow, family, ())
    assert found.lines[-1].what == f"fixtures at once, {FAMILIES[family]}"
    assert found.lines[-1].why.startswith(units_said)


@pytest.mark.parametrize("family, other", [("A", "B"), ("B", "A")])
def test_families_never_meet(family: Family, other: Family) -> None:
    found = demand("[need]\nbaths = 1\nfixtures = { shower = 1, dishwasher = 2 }", family, "build")
    assert {line.source for line in found.lines} == (
        {"ipc-2018-units", "ipc-2018-flows"} if family == "A" else {"nspc-units", "nspc-flows"}
    )
    assert found.beside[0].what == f"fixtures at once, {FAMILIES[other]}"


def test_fixtures_named_are_counted_with_the_rooms() -> None:
    found = demand('[need]\nbaths = 1\nkitchens = 1\nfixtures = { "Washing machines" = 1, dishwasher = 1 }')
    assert [(line.what, round(line.value, 2), line.why) for line in found.lines[:-1]] == [
        ("bathroom group, 1", 3.6, "fixture units"),
        ("kitchen sink, 1", 1.4, "fixture units"),
        ("clothes washer, 1", 1.4, "fixture units, remembered"),
        ("dishwasher, 1", 1.4, "fixture units"),
    ]
    assert gpm(found.flow) == "12.6 gpm"
    assert [(line.what, gpm(line.value)) for line in found.beside] == [
        ("fixtures at once, National Standard Plumbing Code, appendix B", "9.0 gpm"),
        ("peak demand allowance", "12.8 gpm"),
        ("one bath", "7.0 gpm"),
    ]


def test_a_flow_between_remembered_rows_says_so() -> None:
    found = demand("[need]\nbaths = 3\nkitchens = 4", "B", "build")
    assert found.lines[-1].why == "15 units, toilets with tanks, between remembered rows"


def test_one_flush_valve_makes_the_whole_house_one_of_flush_valves() -> None:
    found = demand('[need]\nfixtures = { "toilet with flush valve" = 1, lavatory = 1 }')
    assert found.lines[-1].why == "6.7 units, toilets with flush valves"
    assert gpm(found.flow) == "19.1 gpm"  # between 17.4 and 19.8


def test_past_the_table_nothing_is_said() -> None:
    found = demand("[need]\nbaths = 20\nfixtures = { shower = 1 }")
    assert math.isnan(found.flow)
    assert found.missing == ("[need.fixtures] sum to 73.4 units, and the table ends at 50: give [need] flow",)


def test_a_flow_that_is_given_wins_and_the_rest_stands_beside_it() -> None:
    found = demand('[need]\nflow = "8 gpm"\nbaths = 2')
    assert (gpm(found.flow), gpm(found.worked), found.given) == ("8.0 gpm", "10.0 gpm", True)


def test_a_build_without_a_need_names_it() -> None:
    found = demand("", grade="build")
    assert math.isnan(found.flow)
    assert found.missing == ("[need] flow is not given",)


# A hose, filters, fire.


@pytest.mark.parametrize(
    "hose, family, flow",
    [
        ("", "A", "14.4 gpm"),  # bathroom group and shower 5 units, 9.4 gpm, and a hose of 5
        ('hose = "yes"', "A", "14.4 gpm"),
        ('hose = "no"', "A", "9.4 gpm"),
        ("", "B", "7.8 gpm"),  # 5 + 2 + 2.5 units lie between 7.5 and 8 gpm
        ('hose = "yes"', "B", "11.0 gpm"),  # 7 units, 6 gpm; the hose in full, and no more in units
    ],
)
def test_a_hose_is_added_in_full_or_counted_in_units(hose: str, family: Family, flow: str) -> None:
    found = demand(f'[need]\nbaths = 1\nfixtures = {{ shower = 1, "hose bib" = 1 }}\n{hose}', family, "build")
    assert gpm(found.flow) == flow


def test_a_backwash_is_not_added_and_the_larger_is_taken() -> None:
    assert gpm(demand('[need]\nbaths = 1\nfixtures = { "backwash filter" = 1 }').flow) == "10.0 gpm"
    assert gpm(demand('[need]\nbaths = 3\nfixtures = { "backwash filter" = 1 }').flow) == "10.0 gpm"
    assert gpm(demand("[need]\nbaths = 1\nfixtures = { softener = 1 }").flow) == "7.0 gpm"


def test_nobody_washes_while_it_burns() -> None:
    found = demand('[need]\nbaths = 1\nfire = "20 gpm"')
    assert branches(found) == {"home": ("7.0 gpm", True), "fire": ("20.0 gpm", False)}
    assert gpm(found.flow) == "20.0 gpm"


# Stock and land.


def test_stock_drinks_its_day_in_two_hours() -> None:
    found = demand('[need]\nstock = { "cow with calf" = 45, horses = 2 }')
    assert branches(found) == {"stock": (gpm((45 * 0.068 + units.read("30 gal", "volume")) / 7200.0), True)}
    assert found.per_day == pytest.approx(45 * 0.068 + units.read("30 gal", "volume"))
    assert {line.source for line in found.lines} == {"stock-watering-canada", "water-uses-2017", "ours"}


# Computed here: 3500 m2, 25 mm a week, 4 h a day, 70 %: 125 m3 a week in 28 h.
def test_watering_by_area_depth_hours_and_method() -> None:
    irrigation = '[need.irrigation]\narea = "3500 m2"\ndepth_per_week = "25 mm"\nhours = "4 h"\nmethod = "{}"\n'
    by = {method: demand(irrigation.format(method)).flow for method in ("sprinkler", "drip", "hand", "flood")}
    assert by["sprinkler"] == pytest.approx(125.0 / (28.0 * 3600.0))
    assert by["drip"] == pytest.approx(by["sprinkler"] * 0.70 / 0.85)
    assert by["drip"] < by["sprinkler"] == by["hand"] < by["flood"]


def test_a_quote_fills_what_watering_lacks_and_a_build_names_it() -> None:
    quote, build = (demand('[need.irrigation]\narea = "0.2 ac"', grade=grade) for grade in ("quote", "build"))
    assert math.isfinite(quote.flow)
    assert [line.what for line in quote.lines[:3]] == ["hours a day", "depth a week", "efficiency, unknown"]
    assert math.isnan(build.flow)
    assert build.missing == (
        "[need.irrigation] hours is not given",
        "[need.irrigation] depth_per_week is not given",
        "[need.irrigation] method is not given",
    )


def test_watering_without_an_area_is_named() -> None:
    assert demand('[need.irrigation]\nhours = "4 h"').missing == ("[need.irrigation] area is not given",)


def test_people_animals_and_land_make_the_day() -> None:
    found = demand("[need]\npeople = 4\nbaths = 1\nstock = { horse = 2 }")
    assert units.show(found.per_day, "volume", "US") == "430.0 gal"
    assert [(line.what, gpm(line.value)) for line in found.beside][-1] == ("people, at the peak", "3.3 gpm")
    assert units.show(demand('[need]\nper_day = "300 gal"\npeople = 9').per_day, "volume", "US") == "300.0 gal"
    assert math.isnan(demand("[need]\nbaths = 1").per_day)


# Branches.

TWO = """
[need]
baths = 2
[[need.branches]]
name = "house"
water = "treated"
{house}
[[need.branches]]
name = "dock"
water = "raw"
{dock}
"""


@pytest.mark.parametrize(
    "house, dock, flow",
    [
        ("", "", "15.0 gpm"),
        ("", "with_others = false", "10.0 gpm"),
        ("", 'flow = "12 gpm"\nwith_others = false', "12.0 gpm"),
        ('flow = "6 gpm"', 'flow = "4 gpm"\nwith_others = true', "10.0 gpm"),
        ("with_others = false", 'flow = "4 gpm"', "10.0 gpm"),
    ],
)
def test_what_runs_together_is_added_and_else_the_larger_is_taken(house: str, dock: str, flow: str) -> None:
    assert gpm(demand(TWO.format(house=house, dock=dock)).flow) == flow


def test_a_branch_with_a_flow_of_its_own_carries_the_home() -> None:
    assert branches(demand(TWO.format(house='flow = "6 gpm"', dock=""))) == {
        "house": ("6.0 gpm", True),
        "dock": ("5.0 gpm", True),
    }


def test_flow_control_caps_the_treated_branches_together() -> None:
    found = demand(TWO.format(house="", dock="") + '[delivery]\nflow_control = "6 gpm"')
    assert branches(found) == {"house": ("6.0 gpm", True), "dock": ("5.0 gpm", True)}
    assert gpm(found.flow) == "11.0 gpm"
    assert gpm(found.branches[0].asked) == "10.0 gpm"
    two = "".join(f'[[need.branches]]\nname = "{name}"\nwater = "treated"\nflow = "5 gpm"\n' for name in ("a", "b"))
    assert gpm(demand(f'{two}[delivery]\nflow_control = "8 gpm"').flow) == "8.0 gpm"


def test_a_branch_nobody_knows_the_flow_of_is_named() -> None:
    found = demand('[[need.branches]]\nname = "north pipe"\nwater = "raw"', grade="build")
    assert math.isnan(found.flow)
    assert '[[need.branches]] flow of "north pipe" is not given' in found.missing


# Laws.

NAMES = sorted(name for name, row in fixtures().items() if set(row.units) == {"A", "B"})


@pytest.mark.law
@given(
    counts=st.dictionaries(st.sampled_from(NAMES), st.integers(1, 3), min_size=1, max_size=5),
    more=st.sampled_from(sorted(fixtures())),
    baths=st.integers(0, 3),
    family=FAMILY,
    grade=st.sampled_from(["quote", "build"]),
    hose=st.sampled_from(["yes", "no", "unknown"]),
)
def test_more_fixtures_never_ask_less(counts, more, baths, family, grade, hose) -> None:  # type: ignore[no-untyped-def]
    def flow(given_counts: dict[str, int]) -> float:
        written = ", ".join(f'"{name}" = {count}' for name, count in given_counts.items())
        text = f'[need]\nbaths = {baths}\nhose = "{hose}"\nfixtures = {{ {written} }}'
        return demand(text, family, grade).flow

    before, after = flow(counts), flow({**counts, more: counts.get(more, 0) + 1})
    # Past its table, or its list, neither is known.
    assert math.isnan(after) or after >= before


@pytest.mark.law
@pytest.mark.parametrize("family", ["A", "B"])
def test_the_order_of_branches_makes_no_difference(family: Family) -> None:
    rows = [
        'name = "cabin one"\nwater = "treated"',
        'name = "cabin two"\nwater = "treated"\nwith_others = false',
        'name = "dock"\nwater = "raw"\nflow = "5.1 gpm"',
        'name = "trough"\nflow = "3.3 gpm"',
    ]
    found = set()
    for order in itertools.permutations(rows):
        text = "[need]\nbaths = 2\n" + "".join(f"[[need.branches]]\n{row}\n" for row in order)
        one = demand(text + '[delivery]\nflow_control = "9 gpm"', family)
        assert [branch.name for branch in one.branches] == [row.split('"')[1] for row in order]
        found.add((one.flow, frozenset(one.branches)))
    assert len(found) == 1


# Words.


@pytest.mark.message
def test_unknown_names_are_told_the_nearest_and_all_at_once() -> None:
    found = demand("[need]\nfixtures = { toylet = 1, zzz = 1 }\nstock = { hourse = 2 }")
    known, herd = ", ".join(fixtures()), ", ".join(animals())
    assert list(found.mistakes) == [
        Mistake(
            "", 0, "[need.fixtures] toylet", '"toylet"', f"a fixture that is known: {known}", "did you mean toilet?"
        ),
        Mistake(
            "", 0, "[need.fixtures] zzz", '"zzz"', f"a fixture that is known: {known}", "write the one nearest in kind"
        ),
        Mistake("", 0, "[need.stock] hourse", '"hourse"', f"an animal that is known: {herd}", "did you mean horse?"),
    ]
    assert math.isnan(found.worked)


@pytest.mark.message
def test_a_fixture_the_other_family_has_is_refused_in_this_one() -> None:
    (mistake,) = demand('[need]\nfixtures = { "public lavatory" = 1 }', "B").mistakes
    assert mistake.key == "[need.fixtures] public lavatory"
    assert mistake.found == (
        '"public lavatory", which the list of the National Standard Plumbing Code, appendix B, does not have'
    )
    assert mistake.wanted == (
        "a fixture of that list: bathroom group, bathtub, bidet, clothes washer, dishwasher, kitchen sink, "
        "laundry tray, lavatory, shower, toilet, toilet with flush valve, hose bib"
    )
    assert mistake.remedy == "write the one nearest in kind"
    assert demand('[need]\nfixtures = { "public lavatory" = 1 }', "A").mistakes == ()


@pytest.mark.message
def test_a_hostile_name_stays_short_and_on_one_line() -> None:
    (mistake,) = demand('[need]\nfixtures = { "' + "x\\n]" * 200 + '" = 1 }').mistakes
    assert len(mistake.key) < 400
    assert "\n" not in mistake.key + mistake.found


# Tables.


@pytest.mark.parametrize("rows", [fixtures(), animals()], ids=["fixtures", "animals"])
def test_no_spelling_means_two_things(rows) -> None:  # type: ignore[no-untyped-def]
    for row in rows.values():
        for spelling in (row.name, *row.also, f"{row.name.upper()}s"):
            assert named(rows, spelling) is row, spelling


def test_every_line_names_its_source() -> None:
    text = """
[need]
baths = 1
people = 3
fixtures = { shower = 1, softener = 1, hose = 1 }
stock = { goat = 2, bull = 1, chickens = 30 }
fire = "10 gpm"
[need.irrigation]
area = "0.1 ac"
"""
    for found in (demand(text), demand(text, "B")):
        cited = {line.source for line in (*found.lines, *found.beside)}
        assert cited - {""} <= set(load_sources())
        assert all(line.why for line in (*found.lines, *found.beside))
    assert {row.source for row in (*figures().values(), *animals().values())} <= set(load_sources())


def test_a_demand_never_changes() -> None:
    with pytest.raises(dataclasses.FrozenInstanceError):
        demand("").flow = 1.0  # type: ignore[misc]
