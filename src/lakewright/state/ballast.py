"""The ballast a stand needs, in whole pieces, and what to do where weight is the wrong answer."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from lakewright import units
from lakewright.physics import footing
from lakewright.physics.types import GRAVITY, Array
from lakewright.state.cases import case_names, cases_of
from lakewright.state.facts import Facts, MemberFacts
from lakewright.state.stand_members import Planned
from lakewright.state.still import loads_on, submerged, sums_of
from lakewright.state.weather import Weather, weather_of

TRIAL = 10.0
"""ours: mass [kg] with which it is first seen what water does to ballast."""

MOST = 36.0
"""ours: over so much [kg], some 80 lb, nobody carries it: pins and a tether instead."""


NO_WEIGHT = 3.0 * MOST
"""ours: over so much [kg] a figure only misleads."""


@dataclass(frozen=True)
class Ballast:
    """The mass that keeps a stand where it is, with comfort [kg in air]."""

    mass: float  # in whole pieces, never under the floor; infinite where ballast asks for more than it gives
    floor: float  # by practice
    sliding: float
    tipping: float
    floating: float
    case: str  # the weather that asks for the most

    @property
    def law(self) -> str:
        """What governs."""
        asked = {"sliding": self.sliding, "tipping": self.tipping, "floating": self.floating}
        law = max(asked, key=lambda name: asked[name])
        return law if asked[law] > self.floor else "practice"


def ballast_of(facts: Facts, plan: Planned) -> Ballast | None:
    """The ballast for a stand: in closed form, twice, and then in whole pieces.

    Parameters
    ----------
    facts : of one job; the ballast in them does not matter
    plan : the stand

    Returns
    -------
    Ballast; None where a fact that it rests on is not known

    What waves do to the ballast is the slope between none and a trial mass, which is too much for any mass less than
    the trial: each load is the largest of sums, and so bends upward.
    """
    if math.isinf(plan.in_pieces(0.0)):
        return None
    weather = weather_of(facts, cases_of(len(facts.day_names)))
    # Every day: the one that asks for the most bare need not be the one that asks for the most with ballast on.
    bare, trial = _Asked.of(facts, weather, plan.members(0.0)), TRIAL
    for _ in range(2):
        while math.isinf(plan.in_pieces(trial)):
            trial *= 0.5
        asked = bare.masses(_Asked.of(facts, weather, plan.members(trial)))
        most = max(float(each.max()) for each in asked)
        if math.isnan(most):
            return None
        trial = min(max(2.0 * most, 1.0), NO_WEIGHT)
    sliding, tipping, floating = asked
    names = case_names("weather", facts.day_names)
    return Ballast(
        mass=plan.in_pieces(max(plan.floor, most)),
        floor=plan.floor,
        sliding=float(sliding.max()),
        tipping=float(tipping.max()),
        floating=float(floating.max()),
        case=names[int(np.argmax(np.maximum(sliding, tipping)))],
    )


@dataclass(frozen=True, eq=False, repr=False)
class _Asked:
    """What a stand asks for and has, factors in it: weight under water [N] by sliding and tipping, by case."""

    sliding: Array
    tipping: Array
    weight: Array
    dry_weight: Array
    buoyancy: Array
    floats: float

    @classmethod
    def of(cls, facts: Facts, weather: Weather, members: MemberFacts) -> _Asked:
        facts = replace(facts, members=members)
        limits, stand = facts.limits, facts.stand
        force, moment, uplift = loads_on(facts, weather)
        slides = limits.slide_least + limits.slide_comfort
        tips = limits.tip_least + limits.tip_comfort
        left = np.maximum(slides * force - stand.held, 0.0)
        sums = sums_of(facts)
        return cls(
            # What pins and tether hold alone asks for no weight.
            sliding=np.where(left == 0.0, 0.0, footing.sliding_need(left, slides * uplift, facts.site.bed_friction)),
            tipping=tips * footing.tipping_need(moment, uplift, stand.arm) - stand.held_down,
            weight=submerged(sums, weather.density),
            dry_weight=GRAVITY * sums.mass,
            buoyancy=GRAVITY * weather.density * (sums.solid + sums.held),
            floats=limits.float_least + limits.float_comfort,
        )

    def masses(self, other: _Asked) -> tuple[Array, Array, Array]:
        """Mass of ballast asked against sliding, tipping and floating [kg], where `other` has some."""
        trial = (other.dry_weight - self.dry_weight) / GRAVITY
        kept = (other.weight - self.weight) / (GRAVITY * trial)
        sliding, tipping = (
            footing.ballast_mass(need, self.weight, np.maximum(raised - need, 0.0) / trial, kept)
            for need, raised in ((self.sliding, other.sliding), (self.tipping, other.tipping))
        )
        floats = footing.flotation_ballast(self.dry_weight, self.buoyancy, np.array([self.floats]), kept)
        return sliding, tipping, floats


def how_to_hold(ballast: Ballast, facts: Facts, system: str) -> str:
    """How to keep a stand where it is, in words, with the figure; where weight is the wrong answer, what is right."""
    most = max(ballast.sliding, ballast.tipping, ballast.floating)
    needs = "no weight would do" if most > NO_WEIGHT else f"by weight alone {units.show(most, 'mass', system)}"
    depth = float((facts.stand.depth + facts.days.level.min())[0])
    current = float(facts.days.current.max())
    shown = units.show(ballast.mass, "mass", system)
    if current > float(facts.weather.least_current[0]) and most > MOST:
        at = units.show(current, "speed", system)
        return f"{needs} in {at} of current: stake the legs, tie it upstream, keep it low, or dig a box into the bank"
    if not math.isinf(float(facts.site.mud_strength[0])) and most > ballast.floor:
        return f"{needs}, and mud does not bear it: pins through the legs, pads under them"
    if most > MOST:
        return f"{needs} under these waves in {units.show(depth, 'depth', system)} of water: go deeper, or stake it"
    if most <= ballast.floor:
        return f"{shown} as practice has it: nothing here asks for more"
    return f"{shown} of ballast in whole pieces, clipped low on the legs"
