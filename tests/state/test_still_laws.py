"""The laws of standing still with their domains, and the examples that show they are false without."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest

from lakewright.physics import footing
from lakewright.physics.types import Array
from lakewright.state.cases import cases_of
from lakewright.state.facts import Facts, MemberFacts
from lakewright.state.still import Still, still
from lakewright.state.walk import walk
from lakewright.state.weather import Weather, weather_of
from tests.made import random_batch, rows_of_facts, sound
from tests.state.still_table import stand_in

pytestmark = pytest.mark.law

JOBS, DAYS = 120, 2
ANGLE = (0.0508, 4.786 * 0.45359237 / (18.0 * 0.0254), 7850.0)
"""Steel angle of 2 x 1/4 in: width [m], mass [kg/m], density [kg/m3]."""


def batch() -> Facts:
    """Made-up stands on legs, pushed by something on some day."""
    return random_batch(23, JOBS, "centrifugal", DAYS).with_values({"stand.on_legs": np.ones((JOBS, 1))})


def still_of(facts: Facts) -> Still:
    found = walk(facts).still
    assert found is not None
    return found


def worst(factor: Array) -> Array:
    return factor.min(axis=-1)


def no_less(after: Array, before: Array) -> bool:
    return bool((after >= before * (1.0 - 1e-12)).all())


# What holds more, and what pushes more


@pytest.mark.parametrize(
    "name, factor",
    [
        ("stand.held", "sliding"),
        ("stand.held_down", "tipping"),
        ("site.bed_friction", "sliding"),
        ("stand.arm", "tipping"),
    ],
)
def test_more_hold_never_lowers_a_factor(name: str, factor: str) -> None:
    facts = batch()
    more = facts.with_values({name: 1.3 * facts.value(name) + 0.01})
    assert no_less(worst(getattr(still_of(more), factor)), worst(getattr(still_of(facts), factor)))


@pytest.mark.parametrize("name", ["weather.wake", "days.current", "weather.least_current"])
def test_faster_current_or_larger_wakes_never_raise_a_factor(name: str) -> None:
    """Of the wind this is no law: a longer sea breaks lower over the bed it feels."""
    facts = batch()
    before, after = still_of(facts), still_of(facts.with_values({name: 1.2 * facts.value(name)}))
    # Measured coefficients fall as water sweeps further, by steps of their tables: 3 % is what that may give back.
    assert no_less(1.03 * worst(before.sliding), worst(after.sliding))
    assert no_less(1.03 * worst(before.tipping), worst(after.tipping))


def test_deeper_water_never_feels_the_same_sea_more() -> None:
    """The sea kept, from where nothing breaks; across the switch to a spectrum the deep may feel long waves more."""
    facts = sound().with_values({"days.current": np.zeros(2)})
    weather, force = weather_of(facts, cases_of(2)), []
    for depth in np.linspace(3.0, 8.0, 11):
        sea = replace(
            weather,
            wave_height=np.full(10, 0.8),
            period=np.full(10, 2.6),
            depth=np.full(10, depth),
            current=np.zeros(10),
        )
        force.append(still(facts, sea).force.max())
    assert (np.diff(force) < 0.0).all()


# More ballast never slides sooner: only while the grip of its weight is more than what water does to it


def with_bar(length: float) -> MemberFacts:
    """The sound stand without its own bars, and one bar of angle across the flow."""
    width, mass, density = ANGLE
    bare = MemberFacts(**{name: value[:6] for name, value in vars(sound().members).items()})
    bar = {
        **{"x0": 0.0, "y0": -0.5 * length, "z0": 0.02, "x1": 0.0, "y1": 0.5 * length, "z1": 0.02},
        **{"width": width, "section": mass / density, "hollow": 0.0, "material_density": density},
        **{"drag": 2.0, "inertia": 2.0, "axial_inertia": 0.0, "on_bed": 1.0, "holds_air": 0.0},
    }
    return MemberFacts(**{name: np.append(value, bar[name]) for name, value in vars(bare).items()})


def sliding_in(speed: float, friction: float, members: MemberFacts) -> float:
    """Factor against sliding in a current at the height of the bar [m/s], pins and tether away."""
    facts = replace(sound(), members=members).with_values(
        {"site.bed_friction": np.array([friction]), "stand.held": np.zeros(1)}
    )
    weather = weather_of(facts, cases_of(2))
    rest: Weather = replace(
        weather,
        wave_height=np.zeros(10),
        period=np.zeros(10),
        current=np.full(10, speed),
        depth=np.full(10, 2.0),
    )
    return float(still(facts, rest).sliding.min())


def factors_by_length(speed: float, friction: float, lengths: Sequence[float]) -> Array:
    return np.array([sliding_in(speed, friction, with_bar(length)) for length in lengths])


LENGTHS = (0.2, 0.4, 0.8, 1.6, 3.2)


def test_more_ballast_never_slides_sooner_where_its_grip_outweighs_its_drag() -> None:
    factors = factors_by_length(0.5, 0.45, LENGTHS)
    assert (np.diff(factors) > 0.0).all()
    # In still water weight is all there is to it: on any bed.
    assert np.isinf(factors_by_length(0.0, 0.2, LENGTHS)).all()


def test_counter_example_more_angle_slides_sooner_in_a_fast_stream() -> None:
    """Where the stand without it would not slide yet, each length of angle across a fast stream brings it nearer."""
    gripping = np.array([sliding_in(1.8, 0.2, with_bar(length)) for length in LENGTHS])
    alone = drag_over_grip(1.8, 0.2)
    assert alone > 1.0, "the angle alone is swept away"
    assert gripping[-1] < 1.0
    held = [held_sliding(1.8, 0.2, length) for length in LENGTHS]
    assert (np.diff(held) < 0.0).all()


def held_sliding(speed: float, friction: float, length: float) -> float:
    """The same with a tether that holds well."""
    facts = replace(sound(), members=with_bar(length)).with_values(
        {"site.bed_friction": np.array([friction]), "stand.held": np.array([2000.0])}
    )
    weather = weather_of(facts, cases_of(2))
    sea = replace(
        weather, wave_height=np.zeros(10), period=np.zeros(10), current=np.full(10, speed), depth=np.full(10, 2.0)
    )
    return float(still(facts, sea).sliding.min())


def drag_over_grip(speed: float, friction: float) -> float:
    """Of a metre of angle, by what a metre adds to both."""
    one, two = (replace(sound(), members=with_bar(length)) for length in (0.4, 1.4))
    parts = []
    for facts in (one, two):
        weather = weather_of(facts, cases_of(2))
        sea = replace(
            weather, wave_height=np.zeros(10), period=np.zeros(10), current=np.full(10, speed), depth=np.full(10, 2.0)
        )
        found = still(facts, sea)
        parts.append((found.force.max(), found.uplift.max(), found.weight[0]))
    force, uplift, weight = np.subtract(parts[1], parts[0])
    return float((force + friction * uplift) / (friction * weight))


# Longer legs help tipping, and always raise the sliding need


def test_longer_legs_help_tipping_and_always_raise_the_sliding_need() -> None:
    reaches = (0.3, 0.4, 0.5, 0.6)
    stands = [stand_in("4 m of water", stand__reach=f"{reach} m") for reach in reaches]
    arms = np.array([float(each.facts.stand.arm[0]) for each in stands])
    assert (np.diff(arms) > 0.0).all()
    bare = [with_legs(reach) for reach in reaches]
    needs = [
        footing.sliding_need(found.force, found.uplift, np.array([0.35])).max()
        for found in (still_of(replace(sound(), members=members)) for members in bare)
    ]
    assert (np.diff(needs) > 0.0).all()
    tipping = [
        float((found.moment / arm + found.uplift).max())
        for found, arm in zip((still_of(replace(sound(), members=members)) for members in bare), arms, strict=True)
    ]
    assert tipping[1] < tipping[0]


def with_legs(reach: float) -> MemberFacts:
    """The sound stand without bars, its legs so long [m]."""
    bare = {name: value[:6].copy() for name, value in vars(sound().members).items()}
    for name in ("x1", "y1"):
        bare[name][2:6] *= reach / 0.45
    return MemberFacts(**bare)


def test_counter_example_beyond_some_reach_longer_legs_no_longer_help_tipping() -> None:
    """Lift grows with the legs as their arm does: from some reach on the need of tipping rises again."""
    needs = []
    for reach in (0.3, 0.6, 3.0):
        found = still_of(replace(sound(), members=with_legs(reach)).with_values({"stand.depth": np.array([2.5])}))
        arm = footing.tipping_arm(np.array([reach]), np.array([4.0]))
        needs.append(float((found.moment / arm + found.uplift).max()))
    assert needs[1] < needs[0]
    assert needs[2] > needs[1]


# One row


@pytest.mark.parametrize("row", [0, 7, 50])
def test_a_stand_alone_is_its_row(row: int) -> None:
    facts = batch()
    whole, alone = still_of(facts), still_of(rows_of_facts(facts, row))
    for name in ("force", "moment", "uplift", "sliding", "tipping"):
        assert np.array_equal(getattr(whole, name)[row], getattr(alone, name), equal_nan=True), name


def test_shifting_every_height_changes_nothing() -> None:
    """The water and the bed a metre higher, and so is the depth under the job's zero less."""
    facts = sound()
    shifted = facts.with_values(
        {
            "days.level": facts.days.level + 1.0,
            "stand.depth": facts.stand.depth - 1.0,
            "weather.fetch_depth": facts.weather.fetch_depth - 1.0,
        }
    )
    one, other = still_of(facts), still_of(shifted)
    assert one.sliding == pytest.approx(other.sliding, rel=1e-12)
    assert one.tipping == pytest.approx(other.tipping, rel=1e-12)
