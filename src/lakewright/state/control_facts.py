"""What starts and stops the pump, as facts: a switch, a controller of flow or of speed, or the float of a store."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from lakewright.job.models import Job
from lakewright.job.models_control import Booster, Store
from lakewright.job.quantity import Quantity, is_given
from lakewright.physics.curve import Curve, shape_keeping, straight_lines, unknown_curve
from lakewright.physics.types import Array
from lakewright.state.cases import ENDS, HELD_ENDS, STORE_ENDS
from lakewright.state.gather import Gather, defaults, one
from lakewright.stock.load import Stock
from lakewright.stock.rows import Pump

SWITCH = "pressure switch"
BY_FLOW = "pressure-flow controller"
BY_SPEED = "variable-speed controller"
STORE = "store and booster"
HELD = (BY_FLOW, BY_SPEED)
"""Where one pressure decides: the one at which a controller starts the pump, or the one it holds."""


@dataclass(frozen=True, eq=False, repr=False)
class ControlFacts:
    """Of a controller or a store; nothing of it where a pressure switch does the work."""

    start: Array  # Pa gauge, to which pressure falls before a controller starts the pump
    least_flow: Array  # m3/s, under which it takes the taps to be shut
    delay: Array  # s, that it then lets the pump run on
    trickle: Array  # m3/s, that runs when nobody draws
    least_speed: Array  # share of its rated speed at which a drive may turn the pump
    drive_share: Array  # share of what a drive takes that reaches the motor; 1 without one
    store_volume: Array  # m3, of an open store, from its outlet to where the float stops the pump
    per_day: Array  # m3, drawn from it in a day of demand 1
    fill_time: Array  # s, in a day, that the pump may take for that
    stops: Array  # of a float and an overflow, how many keep it from running over
    low: Array  # m, height of its outlet
    booster: Curve  # head [m] over flow [m3/s] of the pump that draws from it
    booster_height: Array  # m, of its suction port


def control_of(job: Job) -> str:
    """What starts and stops the pump of a job."""
    return job.delivery.control or SWITCH


def ends_of(control_kind: str) -> tuple[str, ...]:
    """Words for the ends of the pump's run, by what starts and stops it."""
    return STORE_ENDS if control_kind == STORE else HELD_ENDS if control_kind in HELD else ENDS


def no_control() -> ControlFacts:
    """A pressure switch does the work."""
    return ControlFacts(
        start=one(0.0),
        least_flow=one(0.0),
        delay=one(0.0),
        trickle=one(0.0),
        least_speed=one(0.0),
        drive_share=one(1.0),
        store_volume=one(1.0),
        per_day=one(1.0),
        fill_time=one(1.0),
        stops=one(0.0),
        low=one(0.0),
        booster=straight_lines([0.0, 1.0], [0.0, 0.0]),
        booster_height=one(0.0),
    )


@dataclass(frozen=True)
class Pressures:
    """At which the pump starts, and by which it is judged [Pa gauge]."""

    start: float
    cut_in: float
    cut_out: float


def pressures_of(job: Job, stock: Stock, gather: Gather) -> Pressures:
    """The pressures between which the pump runs: two of a switch, one of a controller, none of an open store."""
    delivery, given, kind = job.delivery, job.delivery.controller, control_of(job)
    if kind == SWITCH:
        _refuse(job, gather, kind)
        cut_in = gather.number("delivery.cut_in", delivery.cut_in, "[delivery] cut_in")
        return Pressures(cut_in, cut_in, gather.number("delivery.cut_out", delivery.cut_out, "[delivery] cut_out"))
    _refuse(job, gather, kind)
    if kind == STORE:
        return Pressures(0.0, 0.0, 0.0)
    row = gather.part("[delivery.controller] stock", stock.part, given.stock)
    stocked = None if row is None else row.figures.get("start_pressure")
    if kind == BY_FLOW:
        start = _pressure("delivery.cut_in", given.start, "start", stocked, "control.start", gather)
        return Pressures(start, start, start)
    held = _pressure("delivery.cut_in", given.holds, "holds", stocked, "control.holds", gather)
    band = gather.number("control.start", given.band, "[delivery.controller] band", "control.band")
    return Pressures(held - band, held, held)


def _pressure(
    fact: str, given: Quantity | None, field: str, stocked: float | None, default: str, gather: Gather
) -> float:
    place = f"[delivery.controller] {field}"
    if given is None and stocked is not None:
        return gather.assume(fact, stocked, "gauge", "as it is set in the stock; read its own setting", place)
    return gather.number(fact, given, place, default)


def _refuse(job: Job, gather: Gather, kind: str) -> None:
    """What belongs to another kind of control is left over from it, and is not to be read as if it counted."""
    delivery = job.delivery
    belongs = {
        "[delivery] cut_in": (delivery.cut_in is not None, (SWITCH,)),
        "[delivery] cut_out": (delivery.cut_out is not None, (SWITCH,)),
        "[delivery] tank": (delivery.tank is not None, (SWITCH, *HELD)),
        "[delivery.controller] start": (delivery.controller.start is not None, (BY_FLOW,)),
        "[delivery.controller] holds": (delivery.controller.holds is not None, (BY_SPEED,)),
        "[delivery.store]": (bool(delivery.store.model_fields_set), (STORE,)),
    }
    for key, (given, kinds) in belongs.items():
        if given and kind not in kinds:
            wanted = f'[delivery] control = "{kinds[0]}"' if len(kinds) == 1 else "a tank under pressure"
            gather.mistake(key, f'it beside control = "{kind}"', wanted, "take out one of the two")


def control_facts(job: Job, stock: Stock, start: float, per_day: float, gather: Gather) -> ControlFacts:
    """What starts and stops the pump.

    Parameters
    ----------
    start : [Pa gauge], of `pressures_of`; per_day : [m3]
    """
    kind = control_of(job)
    if kind == SWITCH:
        return no_control()
    if kind == STORE:
        return _store_facts(job, stock, per_day, gather)
    given, by_speed = job.delivery.controller, kind == BY_SPEED

    def figure(name: str, said: Quantity | None) -> float:
        return gather.number(f"control.{name}", said, f"[delivery.controller] {name}")

    if math.isnan(start) and by_speed and (why := gather.missing.get("delivery.cut_in")):
        gather.missing.setdefault("control.start", why)
    elif math.isnan(start):
        gather.lack("control.start", "[delivery.controller] start is not given")
    return replace(
        no_control(),
        start=one(start),
        least_flow=one(figure("least_flow", given.least_flow)),
        delay=one(figure("delay", given.delay)),
        trickle=one(figure("trickle", given.trickle)),
        least_speed=one(figure("least_speed", given.least_speed) if by_speed else 0.0),
        drive_share=one(
            gather.number("control.drive_share", given.efficiency, "[delivery.controller] efficiency")
            if by_speed
            else 1.0
        ),
    )


def _store_facts(job: Job, stock: Stock, per_day: float, gather: Gather) -> ControlFacts:
    given = job.delivery.store
    if math.isnan(per_day):
        gather.lack("control.per_day", "[need] people and per_day are not given: what is used in a day")
    booster = _booster(given.booster, stock, gather)
    low = gather.number("control.low", given.low, "[delivery.store] low")
    height = given.booster.height
    return replace(
        no_control(),
        store_volume=one(_volume(given, stock, gather)),
        per_day=one(per_day),
        fill_time=one(gather.number("control.fill_time", given.fill_time, "[delivery.store] fill_time")),
        stops=one(_stops(given, gather)),
        low=one(low),
        booster=booster,
        booster_height=one(gather.number("control.booster_height", height, "[delivery.store.booster] height")),
    )


def _volume(given: Store, stock: Stock, gather: Gather) -> float:
    """Water in the store between outlet and float [m3]."""
    row = gather.part("[delivery.store] stock", stock.part, given.stock)
    if given.volume is None and row is not None and "holds" in row.figures:
        share = defaults()["control.store share"]
        why = f"{share.why} ({share.source})"
        held = share.value * row.figures["holds"]
        return gather.assume("control.store_volume", held, "volume", why, "[delivery.store] volume")
    return gather.number("control.store_volume", given.volume, "[delivery.store] volume")


def _stops(given: Store, gather: Gather) -> float:
    """How many of a float and an overflow there are."""
    count = 0.0
    for name, said in (("float", given.float), ("overflow", given.overflow)):
        place = f"[delivery.store] {name}"
        answer = gather.usual_word(f"control.{name}", None if said == "unknown" else said, "yes", place)
        if answer is None:
            return gather.lack("control.stops", f"{place} is not given: say whether there is one")
        count += float(answer == "yes")
    return count


def _booster(given: Booster, stock: Stock, gather: Gather) -> Curve:
    """Curve of the pump that draws from the store."""
    row = gather.part("[delivery.store.booster] stock", stock.pump, given.stock)
    if isinstance(row, Pump):
        return shape_keeping(row.flow, row.head)
    if row is not None:
        wanted, remedy = (
            "a centrifugal pump, whose curve is known",
            "name one, or give [[delivery.store.booster.curve]]",
        )
        gather.mistake("[delivery.store.booster] stock", f'"{given.stock}", a jet', wanted, remedy)
        return unknown_curve()
    if given.curve and is_given(given.curve[0].flow) and given.curve[0].flow.value == 0.0:
        return shape_keeping([p.flow.value for p in given.curve], [p.head.value for p in given.curve])
    if given.curve:
        found, wanted = f"a first flow of {given.curve[0].flow.text}", "a curve that begins at no flow"
        gather.mistake("[[delivery.store.booster.curve]] 1", found, wanted, "give the head at 0 gpm")
    gather.lack("control.booster", "[delivery.store.booster] stock and curve are not given")
    return unknown_curve()
