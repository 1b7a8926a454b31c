"""Every spot along the soundings judged as a place for the stand: what holds there, what the line to it costs."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from lakewright import units
from lakewright.checks.registry import CHECKS, judge
from lakewright.errors import AskError
from lakewright.job.models import Job
from lakewright.job.quantity import is_given
from lakewright.physics import inlet
from lakewright.physics.pipe import velocity
from lakewright.report import Finding, findings_of
from lakewright.search.option import quantity, said
from lakewright.search.options import closed, options_of, spot_name, stations
from lakewright.state.assemble import Assembly, facts_of
from lakewright.state.coils import coils_for
from lakewright.state.facts import Facts, is_missing
from lakewright.state.gather import OPEN
from lakewright.state.lake import inlet_top
from lakewright.state.walk import State, walk_place
from lakewright.stock.load import Stock

JUDGED = (
    *("water_covers_the_inlet", "inlet_stands_clear_of_the_bed", "inlet_stays_below_the_ice"),
    *("stand_is_outside_breakers", "water_covers_the_inlet_in_a_trough", "boats_pass_over_the_inlet"),
    *("waves_leave_silt_lying", "stand_does_not_slide", "stand_does_not_tip"),
)
"""Checks that a place in the water decides."""
PLACED = tuple(check for check in CHECKS if check.name in JUDGED)


@dataclass(frozen=True)
class Spot:
    """One place for the stand.

    at : distance from the water's edge; depth : of water there at the usual level [m]
    findings : of JUDGED, worst first; margin : the worst of them, infinite where nothing is asked, nan where unknown
    line : length of suction line to the pump [m]; coil : what is bought for it [m]; price [cents], nan without a pipe
    dark, cold : whether daylight has faded over it, and whether it lies under the warm layer; None where not told
    """

    name: str
    at: float
    depth: float
    findings: tuple[Finding, ...]
    margin: float
    line: float
    coil: float
    price: float
    dark: bool | None
    cold: bool | None

    @property
    def worst(self) -> Finding:
        """What speaks loudest against it, or holds with the least to spare."""
        return self.findings[0]

    def status_of(self, check: str) -> str:
        """How one check stands there."""
        return next((f.status for f in self.findings if f.name == check), "not asked")

    @property
    def status(self) -> str:
        """How it stands: fails by a must, falls short of a should, not known, tight or holds."""
        against = [f for f in self.findings if f.status == "fails"]
        if any(f.force == "must" for f in against):
            return "fails"
        if against:
            return "falls short"
        return self.worst.status if self.worst.status in ("unknown", "tight") else "holds"


@dataclass(frozen=True)
class Spots:
    """All places along the soundings, from the shore out, the best of them and why."""

    spots: tuple[Spot, ...]
    best: int
    reasons: tuple[str, ...]
    light: float  # m of water under which daylight has faded; nan where not told
    layer: float  # m of warm water at the end of summer; nan where not told
    inlet: float  # m, height of the inlet's top over the bed

    @property
    def pick(self) -> Spot:
        """The best place."""
        return self.spots[self.best]


def spots_of(job: Job, stock: Stock, assembly: Assembly) -> Spots:
    """Judge every place along a job's soundings with the stand and line it asks for.

    What is open is taken at its first option, but a suction line at the first through which the flow asked for runs
    gently; cover is then judged at that flow.

    Raises
    ------
    AskError where nobody has sounded the bed
    """
    places = stations(job)
    if not places:
        raise AskError(
            "no soundings: give [[site.soundings]] or [site] soundings_file, distance and depth off the shore"
        )
    built = _built(job, stock, assembly)
    judged = [_judged(job, built, stock, x, depth) for x, depth in places]
    spots = tuple(spot for spot, _ in judged)
    best = best_of(spots)
    state = judged[best][1]
    light, layer = _told(state)
    there = facts_of(said(built, {"stand.at": quantity(spots[best].at)}), stock).facts
    rise = float((inlet_top(there) + there.stand.depth)[0])
    reasons = reasons_for(spots, best, light, layer, job.job.units)
    if is_given(job.stand.at):
        reasons.insert(1, _as_asked(spots, job.stand.at.value, job.stand.at.text))
    return Spots(spots, best, tuple(reasons), light, layer, rise)


def _built(job: Job, stock: Stock, assembly: Assembly) -> Job:
    """The job with every open part at an option; nobody would lay a line that the flow asked for rushes through."""
    options = options_of(job, stock, assembly)
    first = closed(job, options)
    if len(options["line"]) == 1:
        return first
    for line in options["line"]:
        there = said(first, line.says)
        facts = facts_of(there, stock).facts
        if bool((velocity(facts.need.flow, facts.suction.bore) <= facts.limits.suction_velocity).all()):
            return there
    return first


def _as_asked(spots: Sequence[Spot], at: float, text: str) -> str:
    """How the place nearest to the one the job asks for stands."""
    near = min(spots, key=lambda spot: abs(spot.at - at))
    words = "all holds" if near.status == "holds" else _words(near.worst)
    return f"asked for at {text}: there, {words}"


def _told(state: State) -> tuple[float, float]:
    """Where daylight has faded, and how deep the warm layer lies [m]; nan of a water that has neither."""
    place = state.placing
    if place is None or not bool(place.lies_still.any()):
        return math.nan, math.nan
    return float(place.light.max()), float(place.layer.max()) if bool(place.layered.any()) else math.nan


def _judged(job: Job, built: Job, stock: Stock, at: float, depth: float) -> tuple[Spot, State]:
    there = facts_of(said(built, {"stand.at": quantity(at)}), stock)
    facts = there.facts
    state = walk_place(facts)
    if job.pump.stock == OPEN or (is_missing(facts.pump.curve) and is_missing(facts.pump.jet)):
        state = covered_as_asked(facts, state)
    missing = {name: why for name, why in there.missing.items() if is_missing(facts.value(name))}
    found = findings_of(facts, judge(state, facts.limits, PLACED), missing, job.job.units, PLACED)
    some = tuple(f for f in found if f.status != "not asked")
    ranked = tuple(sorted(some, key=_worst_first)) or found
    line = facts.suction
    length = float((line.bed_length + line.bank_length)[0] * (1.0 + line.along[0]))
    coil, price = _bought(there, stock, length)
    light, layer = _told(state)
    deep = float(state.placing.cover.min()) if state.placing is not None else math.nan
    margins = [f.margin if f.margin is not None else math.nan for f in some]
    spot = Spot(
        name=spot_name(job, at, depth),
        at=at,
        depth=depth,
        findings=ranked,
        margin=min(margins, default=math.inf) if not any(map(math.isnan, margins)) else math.nan,
        line=length,
        coil=coil,
        price=price,
        dark=None if math.isnan(light + deep) else deep > light,
        cold=None if math.isnan(layer + deep) else deep > layer,
    )
    return spot, state


def covered_as_asked(facts: Facts, state: State) -> State:
    """The state with the inlet drawing the flow that is asked for, where no pump has been chosen."""
    bore = facts.stand.riser_bore
    speed = facts.need.flow / (0.25 * math.pi * bore * bore) + 0.0 * state.stand.cover
    stand = replace(
        state.stand,
        cover_vortex=inlet.vortex_cover(speed, bore),
        cover_by_velocity=inlet.tabulated_cover(speed),
        cover=facts.days.level.min() + 0.0 * state.stand.cover_floor - inlet_top(facts) + 0.0 * speed,
    )
    return replace(state, stand=stand)


def _worst_first(finding: Finding) -> tuple[int, int, float]:
    order = {"fails": 0, "unknown": 1, "tight": 2, "holds": 3}
    return order[finding.status], int(finding.force != "must"), finding.margin if finding.margin is not None else 0.0


def _bought(there: Assembly, stock: Stock, length: float) -> tuple[float, float]:
    """Length of the coils that reach so far [m], and their price [cents]."""
    pipe = stock.pipes.get(there.parts.get("[suction] stock", ""))
    if pipe is None or math.isnan(length):
        return math.nan, math.nan
    coil = math.fsum(coils_for(pipe.coils, length)) if pipe.coils else length
    return coil, round(coil * pipe.price_cents_per_m)


def best_of(spots: Sequence[Spot]) -> int:
    """The cheapest place where all holds with comfort, the nearest of them; else the one with the most to spare.

    What is unknown counts neither way, as long as something else is known.
    """
    done = [n for n, spot in enumerate(spots) if spot.status == "holds"]
    if done:
        return min(done, key=lambda n: (_cost(spots[n]), spots[n].at))
    order = {"tight": 0, "unknown": 1, "falls short": 2, "fails": 3}

    def rank(n: int) -> tuple[int, float, int, float, float]:
        spot = spots[n]
        # ours: a hundredth of the comfort is no difference; then the fewest that are not at ease, then the price.
        uneasy = sum(f.status != "holds" for f in spot.findings)
        return order[spot.status], -round(_known(spot), 2), uneasy, _cost(spot), spot.at

    return min(range(len(spots)), key=rank)


def _known(spot: Spot) -> float:
    return min((f.margin for f in spot.findings if f.margin is not None), default=-math.inf)


def _cost(spot: Spot) -> float:
    return math.inf if math.isnan(spot.price) else spot.price


def reasons_for(spots: Sequence[Spot], best: int, light: float, layer: float, system: str) -> list[str]:
    """Why the best is the best, what stands against the places nearer in, and what the ones further out would buy."""
    pick = spots[best]
    why = {
        "holds": "all that decides a place holds there, and no nearer place and no cheaper line has that",
        "tight": f"nothing fails there; {_words(pick.worst)}; no place has more to spare",
        "unknown": f"not known there: {_words(pick.worst)}",
    }
    reasons = [why.get(pick.status, f"no place along these soundings will do; least wrong there: {_words(pick.worst)}")]
    easy = {f.name for f in pick.findings if f.status == "holds"}
    nearer = [(spot, f) for spot in spots[:best] for f in reversed(spot.findings) if _is_short(f, easy)]
    if nearer:
        spot, against = nearer[-1]
        reasons.append(f"nearer in, at {spot.name}: {_words(against)}")
    further = [spot for spot in spots[best + 1 :] if spot.status != pick.status and spot.status != "holds"]
    if pick.status == "holds" and further:
        reasons.append(f"further out, at {further[0].name}: {_words(further[0].worst)}")
    reasons += _bought_further(spots, best, light, layer, system)
    return reasons


def _is_short(finding: Finding, easy: set[str]) -> bool:
    """Whether what holds at the best place does not hold here."""
    return finding.status != "holds" and finding.name in easy


def _words(finding: Finding) -> str:
    status = "not known" if finding.status == "unknown" else finding.status
    return f"{finding.name.replace('_', ' ')}: {status}, {finding.message}"


def _bought_further(spots: Sequence[Spot], best: int, light: float, layer: float, system: str) -> list[str]:
    """Where darker or colder water is reached, and what the line there costs more: information, never a verdict."""
    pick, told = spots[best], []
    for attribute, depth, what, gain in (
        ("dark", light, "daylight has faded", "less for filters and lamp to do"),
        ("cold", layer, "the warm layer of summer ends", "colder, steadier water, which may lack air"),
    ):
        if math.isnan(depth):
            continue
        near = f"about {units.show(depth, 'depth', system)} down {what}"
        if getattr(pick, attribute):
            told.append(f"{near}: this place lies under it; {gain}")
            continue
        there = next((spot for spot in spots if getattr(spot, attribute)), None)
        if there is None:
            told.append(f"{near}: nowhere along these soundings is the inlet that deep")
            continue
        more = there.price - pick.price
        cost = "" if math.isnan(more) else f", {units.show(more, 'money', system)} more of line in whole coils"
        told.append(f"{near}: reached at {there.name}{cost}; {gain}")
    return told
