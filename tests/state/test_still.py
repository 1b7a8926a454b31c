"""The same stand in different water: the figures that keep it there, and the advice that changes with the water."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from lakewright.api.report import report_on
from lakewright.checks.registry import CHECKS
from lakewright.job.read import read_job_text
from lakewright.job.write import set_values
from lakewright.physics.members import Sea, coefficients_of, peak_loads
from lakewright.physics.waves import wave_number
from lakewright.state.assemble import facts_of
from lakewright.state.cases import case_names, cases_of
from lakewright.state.facts import MemberFacts
from lakewright.state.limits import standard_limits
from lakewright.state.still import loads_on, members_of
from lakewright.state.walk import walk
from lakewright.state.weather import felt_wave, weather_of
from lakewright.stock.load import load_stock
from tests.made import sound
from tests.physics.stands import WATER, worked_stand
from tests.physics.stands import waves as sea_of
from tests.state.still_table import EXAMPLES, PLACES, QUOTE, outcome, stand_in

BLOCKS = ("still", "rest", "line_at_rest", "line_in_waves")
ON_THE_BED = tuple(check.name for check in CHECKS if check.block in BLOCKS)
HELD = ("stand_does_not_slide", "stand_does_not_tip", "stand_does_not_float")
FLOOR = 9.0718474
"""20 lb [kg]."""


def status_of(place: str, name: str, **more: str) -> str:
    return stand_in(place, **more).findings[name].status


# The worked stand of the notes, carried through the walk


def worked() -> MemberFacts:
    members = worked_stand()
    ends = {
        f"{axis}{end}": values[:, n]
        for end, values in enumerate((members.start, members.end))
        for n, axis in enumerate("xyz")
    }
    same = ("width", "section", "hollow", "material_density", "drag", "inertia", "axial_inertia")
    return MemberFacts(
        **ends,
        **{name: getattr(members, name) for name in same},
        on_bed=members.on_bed.astype(float),
        holds_air=np.ones(6),
    )


@pytest.mark.law
def test_the_walk_pushes_the_worked_stand_as_the_physics_does() -> None:
    """One wave of case A, given to both: the walk adds nothing but the course of the waves."""
    facts = replace(sound(), members=worked()).with_values({"days.current": np.zeros(2)})
    weather = weather_of(facts, cases_of(2))
    height, period, depth = 1.30711, 2.54751, 4.0
    one = np.ones_like(weather.depth)
    weather = replace(
        weather,
        wave_height=height * one,
        period=period * one,
        depth=depth * one,
        current=0.0 * one,
        density=WATER * one,
    )
    force, moment, uplift = (each[0] for each in loads_on(facts, weather))
    # Of all courses the one along two legs and across two is the worst for a plus.
    assert (force, moment, uplift) == pytest.approx(loads(sea_of(height, period, depth)), rel=1e-12)


def loads(sea: Sea) -> tuple[float, float, float]:
    found = peak_loads(worked_stand(), sea, coefficients_of(worked_stand(), sea))
    return float(found.force[0, 0]), float(found.moment[0, 0]), float(found.uplift[0, 0])


@pytest.mark.law
def test_arm_and_weight_of_the_worked_stand() -> None:
    facts = replace(sound(), members=worked())
    weight = float(walk(facts).still.weight[0])  # type: ignore[union-attr]
    # The notes have 8.752 N with g 9.81 and water of 1000 kg/m3.
    assert weight == pytest.approx(8.752, rel=0.01)


# Depth, current and bed


@pytest.mark.law
def test_the_deeper_the_less_ballast_and_deep_water_leaves_the_floor_of_practice() -> None:
    shallow, middle, deep = (stand_in(f"{depth} m of water") for depth in (2, 4, 10))
    assert shallow.ballast.mass > 2.0 * middle.ballast.mass > middle.ballast.mass > deep.ballast.mass  # type: ignore[union-attr]
    assert FLOOR <= deep.ballast.mass < 1.1 * FLOOR  # type: ignore[union-attr]
    assert deep.ballast.law == "practice"  # type: ignore[union-attr]
    assert middle.ballast.law == "sliding"  # type: ignore[union-attr]
    assert "storm" in middle.ballast.case  # type: ignore[union-attr]


@pytest.mark.law
@pytest.mark.parametrize("place", ["4 m of water", "10 m of water", "gravel, riser not given", "mud, riser not given"])
def test_what_a_quote_solves_holds_when_it_is_judged(place: str) -> None:
    found = stand_in(place)
    assert {found.findings[name].status for name in HELD} == {"holds"}
    assert found.assumed["stand.ballast"] == pytest.approx(found.ballast.mass)  # type: ignore[union-attr]


@pytest.mark.law
@pytest.mark.parametrize("flood", ["0.325 m/s", "0.375 m/s", "0.425 m/s"])
def test_ballast_holds_on_a_day_of_current_as_on_one_of_waves(flood: str) -> None:
    """Bare, the stand slides first under the waves of summer; with ballast on, in the current of the flood."""
    day = f'[[site.days]]\nname = "flood"\nlevel = "3 m"\nwater = "15 C"\ncurrent = "{flood}"\n[[site.soundings]]'
    waves = {"stand.riser": "48 in", "site.wind.speed": "20 m/s", "site.days.1.current": "0 m/s"}
    found = outcome(set_values(QUOTE.replace("[[site.soundings]]", day, 1), waves))
    assert {found.findings[name].status for name in HELD} == {"holds"}


@pytest.mark.law
def test_a_stand_that_pins_hold_from_sliding_still_gets_what_keeps_it_from_tipping() -> None:
    found = stand_in("2 m of water", stand__pins="4", stand__riser="34 in")
    needed = found.ballast
    assert needed is not None
    assert (needed.law, needed.sliding) == ("tipping", 0.0)
    assert needed.mass >= needed.tipping > needed.floor
    assert found.findings["stand_does_not_tip"].status == "holds"


@pytest.mark.law
def test_ballast_comes_in_whole_pieces_and_less_is_less_than_comfort() -> None:
    found = stand_in("4 m of water")
    mass = found.ballast.mass  # type: ignore[union-attr]
    pieces = [part.mass for part in load_stock().parts.values() if part.kind == "ballast" and part.series == "angle"]
    assert any(mass / (4.0 * piece) == pytest.approx(round(mass / (4.0 * piece))) for piece in pieces)
    limits = standard_limits()
    wanted = limits.slide_least + limits.slide_comfort
    assert found.factor("stand_does_not_slide") >= wanted
    less = stand_in("4 m of water", stand__ballast__mass=f"{0.8 * mass} kg")
    assert less.factor("stand_does_not_slide") < wanted


@pytest.mark.message
@pytest.mark.parametrize(
    "place, words",
    [
        ("2 m of water", "no weight would do under these waves in 2.00 m of water: go deeper, or stake it"),
        ("4 m of water", "22.8 kg of ballast in whole pieces, clipped low on the legs"),
        ("10 m of water", "9.8 kg as practice has it: nothing here asks for more"),
        (
            "stream of 1.5 m/s",
            "no weight would do in 1.50 m/s of current: stake the legs, tie it upstream, keep it low, or dig a box into"
            " the bank",
        ),
        (
            "mud without pins",
            "by weight alone 79.9 kg, and mud does not bear it: pins through the legs, pads under them",
        ),
    ],
)
def test_advice_changes_with_the_water(place: str, words: str) -> None:
    found = stand_in(place)
    assert found.advice == words
    slides = found.findings["stand_does_not_slide"]
    assert slides.message.endswith(f"; {words}") == (slides.status != "holds")


@pytest.mark.law
def test_in_a_stream_pins_and_a_tether_hold_what_no_weight_does() -> None:
    assert status_of("stream of 1.5 m/s", "stand_does_not_slide") == "fails"
    assert status_of("stream of 1.5 m/s", "stand_does_not_slide", stand__ballast__mass="60 kg") == "fails"
    assert status_of("the same, pinned and tied", "stand_does_not_slide") == "holds"
    # Weed at the head still turns a tall riser over; a low form stays.
    assert status_of("the same, pinned and tied", "stand_does_not_tip") == "fails"
    assert status_of("the same, low form", "stand_does_not_tip") != "fails"


@pytest.mark.law
def test_mud_asks_for_a_longer_riser_and_pads_and_gravel_for_neither() -> None:
    gravel, mud = stand_in("gravel, riser not given"), stand_in("mud, riser not given")
    assert gravel.facts.stand.riser[0] == pytest.approx(0.3048)
    assert mud.facts.stand.riser[0] == pytest.approx(0.6096)
    assert "stand.pads" in mud.assumed
    assert "stand.pads" not in gravel.assumed
    assert mud.facts.stand.rest_area[0] > 4.0 * gravel.facts.stand.rest_area[0]
    assert gravel.findings["stand_does_not_sink"].status == "not asked"
    assert mud.findings["stand_does_not_sink"].status == "holds"
    bare = stand_in("mud, riser not given", stand__pads="0 in")
    assert bare.factor("stand_does_not_sink") < 0.5 * mud.factor("stand_does_not_sink")


@pytest.mark.law
def test_wet_legs_hold_air_and_float_sooner() -> None:
    dry, wet = stand_in("10 m of water"), stand_in("10 m of water", stand__wet="wet")
    assert wet.factor("stand_does_not_float") < dry.factor("stand_does_not_float")
    assert wet.factor("stand_can_be_lifted") > dry.factor("stand_can_be_lifted")
    assert wet.ballast.floating > dry.ballast.floating  # type: ignore[union-attr]


@pytest.mark.law
@pytest.mark.parametrize("form", ["hung", "floating", "box"])
def test_what_hangs_is_not_judged_and_gets_a_caution(form: str) -> None:
    job = read_job_text(set_values(QUOTE, {"stand.form": form, "stand.inlet.attitude": "down"}))
    report = report_on(job, facts_of(job, load_stock()))
    assert {f.status for f in report.findings if f.name in ON_THE_BED} == {"not asked"}
    assert any("hung, floating or boxed" in words for words in report.cautions)
    assert not any(each.key.startswith(("weather.", "stand.ballast")) for each in report.assumed)


@pytest.mark.law
def test_every_example_stays_where_it_is() -> None:
    for name in ("year_round_cabin", "stream_irrigation"):
        found = outcome((EXAMPLES / f"{name}.toml").read_text(encoding="utf-8"))
        assert {found.findings[check].status for check in HELD} == {"holds"}, name


# Weather


@pytest.mark.law
def test_waves_come_on_days_without_ice_alone() -> None:
    facts = sound()
    found = weather_of(facts, cases_of(2))
    names = case_names("weather", facts.day_names)
    waved = {name for name, height in zip(names, found.wave_height, strict=True) if height > 0.0}
    assert waved == {name for name in names if name.startswith("day 0") and ("storm" in name or "wake" in name)}
    assert not np.isnan(found.current).any()


@pytest.mark.law
def test_a_gust_raises_less_than_an_hour_of_the_same_wind() -> None:
    facts = sound()
    hour, gust = (
        weather_of(facts.with_values({"weather.averaging": np.array([seconds])}), cases_of(2)).largest
        for seconds in (3600.0, 3.0)
    )
    storms = hour > facts.weather.wake
    assert storms.any()
    assert (gust[storms] < 0.75 * hour[storms]).all()


@pytest.mark.law
def test_the_felt_wave_breaks_in_shallow_water_and_is_the_spectrums_in_deep() -> None:
    depth = np.array([0.5, 4.0, 10.0])
    height, period = felt_wave(np.full(3, 1.307), np.full(3, 2.55), depth)
    assert height[0] <= 0.78 * 0.5
    assert height[1] == pytest.approx(1.307)
    assert period[2] > 2.55  # long waves alone reach so deep
    assert wave_number(np.array([2.55]), np.array([10.0]))[0] * 10.0 > 4.0


@pytest.mark.law
def test_a_stand_fallen_dry_is_not_pushed() -> None:
    facts = sound().with_values({"stand.depth": np.array([0.2])})
    found = walk(facts).still
    assert found is not None
    assert (found.force[:5] == 0.0).all()
    assert np.isfinite(found.force).all()


@pytest.mark.law
def test_no_stand_of_the_table_is_left_without_an_answer() -> None:
    for place in PLACES:
        found = stand_in(place)
        assert found.ballast is not None, place
        assert "unknown" not in {found.findings[name].status for name in HELD}, place
        assert not math.isnan(found.ballast.mass), place


@pytest.mark.law
def test_members_of_a_batch_are_those_of_each_row() -> None:
    table = members_of(sound().members, (3,))
    assert table.owner.tolist() == sorted([0, 1, 2] * sound().members.width.size)
    assert np.array_equal(table.width, np.tile(sound().members.width, 3))
