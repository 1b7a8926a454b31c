"""Stand and suction line as facts."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Any

from lakewright.job.models import Job
from lakewright.job.quantity import Quantity, is_given
from lakewright.physics.types import Array
from lakewright.state.exposure import held_by, stands_on_the_bed
from lakewright.state.facts import StandFacts, SuctionFacts
from lakewright.state.gather import OPEN, Gather, defaults, one, usual_size, why_not
from lakewright.state.holding import has_no_foot_valve, mounting
from lakewright.state.line_facts import line_on_bed_facts
from lakewright.state.lines import coefficient_of, fittings_of, pipe_facts
from lakewright.state.profile import bed_profile, ground_profile, height_along, path_length
from lakewright.state.site import by_bed
from lakewright.state.stand_built import FORMS_ON_LEGS, asked_of, built
from lakewright.state.wall import wall_facts
from lakewright.stock.load import Stock
from lakewright.stock.rows import FootValve, Screen


def stand_facts(job: Job, stock: Stock, size: str, gather: Gather) -> StandFacts:
    """The stand, its foot valve and its screen. `size` is the suction line's, for a quote's usual valve."""
    inlet = job.stand.inlet
    screened = has_no_foot_valve(job)
    valve = None
    if not screened and inlet.loss_coefficient is None:
        name = gather.usual("stand.inlet.stock", inlet.stock, "foot_valve", size)
        valve = gather.part("[stand.inlet] stock", stock.foot_valve, name)
    bare = inlet.screen == "none"
    own_screen = inlet.screen_area is not None or bare
    name = inlet.screen if own_screen else gather.usual("stand.inlet.screen", inlet.screen, "screen")
    screen = None if bare else gather.part("[stand.inlet] screen", stock.screen, name)
    bore = inlet.bore.value if inlet.bore else valve.bore if valve else _line_bore(job, stock)
    if math.isnan(bore):
        gather.lack("stand.riser_bore", why_not("[stand.inlet] stock", inlet.stock))
    area, structure, open_share = _screen(job, screen, bore, gather)
    frame, riser, rise, sink = _heights(job, stock, valve, screen, gather)
    coefficient, factor, opening_pressure = _valve(inlet, valve, screened, gather)
    seats, hangs = mounting(job, valve, gather)
    held, held_down = held_by(job, gather)
    return StandFacts(
        depth=one(_depth(job, gather)),
        frame=one(frame),
        riser=one(riser),
        inlet_rise=one(rise),
        sink=one(sink),
        riser_bore=one(bore),
        valve_coefficient=one(coefficient),
        valve_lift_factor=one(factor),
        opening_pressure=one(opening_pressure),
        screen_area=one(area),
        screen_structure=one(structure),
        screen_open=one(open_share),
        screen_opening=one(_opening(inlet, screen, valve, gather)),
        is_bare=one(bare),
        foot_valve=one(0.0 if screened else 1.0),
        seats=one(seats),
        hangs=one(hangs),
        on_legs=one(stands_on_the_bed(job)),
        arm=one(math.nan),
        rest_area=one(math.nan),
        held=one(held),
        held_down=one(held_down),
    )


def _opening(inlet: Any, screen: Screen | None, valve: FootValve | None, gather: Gather) -> float:
    """Narrowest way of a slot or hole of the screen [m], or of the strainer that stands in its place."""
    if inlet.screen_opening is not None:
        return gather.number("stand.screen_opening", inlet.screen_opening, "[stand.inlet] screen_opening")
    if screen is not None:
        return screen.opening
    if inlet.screen == "none" and valve is not None:
        return valve.strainer_opening
    return gather.lack("stand.screen_opening", "[stand.inlet] screen_opening is not given")


def is_as_built(job: Job) -> bool:
    """Whether a job says enough of its stand for the heights to be those it comes out with."""
    return all(said not in (None, OPEN) for said in (job.stand.form, job.stand.frame))


def _heights(
    job: Job, stock: Stock, valve: FootValve | None, screen: Screen | None, gather: Gather
) -> tuple[float, float, float, float]:
    """Height of the frame over the bed, riser over it, rise of the inlet over that, and how far it settles [m].

    As built where the job gives form and frame; else as asked, on the usual frame.
    """
    stand, as_built = job.stand, is_as_built(job)
    rise, frame = math.nan, defaults()["stand.frame"].value
    if not as_built:
        length = _rise(stand.inlet.attitude, screen) if screen else None
        rise = gather.default("stand.inlet_rise", "", "stand.inlet_rise") if length is None else length
        frame = gather.default("stand.frame", "", "stand.frame")
    sink = gather.number("stand.sink", job.site.bed.soft, "[site.bed] soft", by_bed(job, "stand.sink"))
    riser = gather.number("stand.riser", stand.riser, "[stand] riser", _usual_riser(job, frame - sink))
    if not as_built:
        return frame, riser, rise, sink
    depth = _depth(job, gather) if stand.form not in FORMS_ON_LEGS else math.nan
    pipe = stock.pipes.get(job.suction.stock or "")
    found = built(asked_of(job, valve, screen, pipe, riser, depth), stock)
    if math.isnan(found.axis_height):
        gather.mistake("[stand] frame", repr(stand.frame), "a size the stock has fittings of", found.gaps[0])
    return found.axis_height, found.riser if not math.isnan(riser) else riser, found.inlet_rise, sink


def _rise(attitude: str | None, screen: Screen) -> float:
    """How far the screen stands over the riser's top [m]: its length, or half its width on its side."""
    return 0.5 * screen.diameter if attitude == "side" else screen.length


def _usual_riser(job: Job, base: float) -> str:
    """The shortest usual riser made for this bed that stands clear of it; `base` [m] is what it stands on."""
    names = ["stand.riser on firm bed", "stand.riser on silt", "stand.riser in soft bed"]
    rows = names[names.index(by_bed(job, "stand.riser")) :]
    wanted = defaults()["site.bed_wanted"].value
    return next((name for name in rows if base + defaults()[name].value >= wanted), rows[-1])


def _line_bore(job: Job, stock: Stock) -> float:
    if job.suction.bore is not None:
        return job.suction.bore.value
    pipe = stock.pipes.get(job.suction.stock or "")
    return pipe.bore if pipe else math.nan


def _valve(inlet: Any, valve: FootValve | None, screened: bool, gather: Gather) -> tuple[float, float, float]:
    """Coefficient, lift factor and opening pressure of the foot valve; a screen alone has none of them."""

    def figure(field: str, given: Quantity | None, stocked: float | None) -> float:
        if given is not None:
            return given.value
        if stocked is not None:
            return stocked
        return 0.0 if screened else gather.lack(f"stand.{field}", why_not("[stand.inlet] stock", inlet.stock))

    # A valve given by its own coefficient is taken as lifted at any flow unless it is from the stock.
    own = 0.0 if inlet.loss_coefficient is not None else None
    return (
        figure("valve_coefficient", inlet.loss_coefficient, valve.loss_coefficient if valve else None),
        figure("valve_lift_factor", None, valve.full_lift_factor if valve else own),
        figure("opening_pressure", inlet.opening_pressure, valve.opening_pressure if valve else own),
    )


def _screen(job: Job, screen: Screen | None, bore: float, gather: Gather) -> tuple[float, float, float]:
    inlet = job.stand.inlet
    if screen is not None:
        return screen.area, screen.structure_fraction, screen.open_fraction
    if inlet.screen_area is not None:
        place = "[stand.inlet] screen_open_fraction"
        return inlet.screen_area.value, 1.0, gather.number("stand.screen_open", inlet.screen_open_fraction, place)
    if inlet.screen != "none":
        why = why_not("[stand.inlet] screen", inlet.screen)
        return gather.lack("stand.screen_area", why if inlet.screen else f'{why}; "none" for a bare valve'), 1.0, 1.0
    row = defaults()["stand.screen_area per pipe area"]
    area = row.value * 0.25 * math.pi * bore * bore
    return gather.assume("stand.screen_area", area, "screen_area", f"no screen: {row.why} ({row.source})"), 1.0, 1.0


def _depth(job: Job, gather: Gather) -> float:
    at, soundings = job.stand.at, job.site.soundings
    if at is not None and at.open:
        return gather.lack("stand.depth", "[stand] at is open: design chooses it")
    if not soundings:
        return gather.default("stand.depth", "[[site.soundings]]", "stand.depth")
    if at is None:
        return gather.lack("stand.depth", "[stand] at is not given")
    depth = height_along(*bed_profile(job), one(at.value))[0]
    if math.isnan(depth):
        return gather.lack("stand.depth", "[stand] at lies beyond the last of [[site.soundings]]")
    return float(depth)


def suction_facts(
    job: Job, stock: Stock, flow: float, route: Mapping[str, Array], gather: Gather
) -> tuple[SuctionFacts, str]:
    """The suction line, and its nominal size. `flow` [m3/s] helps to choose a quote's usual pipe."""
    suction = job.suction
    bed, bank, along = _suction_length(job, gather)
    usual = usual_size((bed + bank) * (1.0 + along), flow)
    name = suction.stock if suction.bore else gather.usual("suction.stock", suction.stock, "suction", usual)
    pipe = gather.part("[suction] stock", stock.pipe, name)
    bore, rough, fouled = pipe_facts("suction", suction, pipe, gather)
    counted = fittings_of("suction", suction, gather)
    coefficient = coefficient_of("suction", suction, pipe, counted, stock, gather)
    # A flooded line whose fittings nobody has counted is billed with a valve.
    billed = 0 if "fittings" in suction.model_fields_set else int(job.holding.arrangement == "flooded")
    valves = max((counted or {}).get("valves", 0), billed)
    facts = SuctionFacts(
        bed_length=one(bed),
        bank_length=one(bank),
        along=one(along),
        bore=one(bore),
        roughness=one(rough),
        roughness_fouled=one(fouled),
        coefficient=one(coefficient),
        valves=one(valves),
        **wall_facts(job, pipe, gather),
        **line_on_bed_facts(job, pipe, bore, gather),
        **route,
    )
    return facts, pipe.size if pipe else usual


def _suction_length(job: Job, gather: Gather) -> tuple[float, float, float]:
    given = job.suction.length
    if is_given(given):
        ends = [q.value for q in (job.stand.at, job.pump.distance) if is_given(q)]
        if len(ends) == 2 and given.value < sum(ends):
            found = f'"{given.text}", shorter than the way from the stand to the pump'
            gather.mistake("[suction] length", found, "the length of the line along bed and bank", "measure it again")
        return gather.number("suction.bed_length", given, "[suction] length"), 0.0, 0.0
    along = gather.number("suction.along", job.suction.along, "[suction] along")
    bed = _length("suction.bed_length", job.stand.at, bed_profile(job), "[stand] at", "stand.at", gather)
    bank = _length("suction.bank_length", job.pump.distance, ground_profile(job), "[pump] distance", None, gather)
    return bed, bank, along


def _length(
    fact: str,
    at: Any,
    profile: tuple[Sequence[float], Sequence[float]],
    place: str,
    default: str | None,
    gather: Gather,
) -> float:
    """Length along a profile to a place; the plain distance where no profile was taken."""
    distance = gather.number(fact, at, place, default)
    if math.isnan(distance) or not profile[0]:
        return distance
    length = path_length(*profile, one(distance))[0]
    if math.isnan(length):
        return gather.lack(fact, f"{place} lies beyond the points of the profile")
    return float(length)
