"""The parts of the intake stand, from the inlet to where the line takes hold."""

from __future__ import annotations

import math

from lakewright.job.models import Job
from lakewright.state.assemble import Assembly
from lakewright.state.gather import OPEN, defaults
from lakewright.state.holding import has_no_foot_valve
from lakewright.state.path import End, Laying, Piece, nipples_to, why_none
from lakewright.state.works import FORMS_ON_LEGS
from lakewright.stock.rows import FootValve, Part

STATION = "stand"
USUAL_REACH = 0.4572
"""ours: 18 in from the riser's axis to the tip of a leg, where a job does not say."""


def lay_stand(laying: Laying, job: Job, assembly: Assembly, line_size: str) -> End | None:
    """Lay inlet, riser and frame, and give the end from which the line starts."""
    stand, valve = job.stand, foot_valve_of(laying, job, assembly)
    size = valve.size if valve else line_size
    at = _inlet(laying, job, assembly, valve)
    legs = _legs(laying, job)
    turns = {"side": 1, "down": 2 if legs else 0}.get(stand.inlet.attitude or "up", 0)
    open_riser = at is None
    first = len(laying.pieces)
    for _ in range(turns):
        at = laying.run(at, STATION, laying.part("elbow", size))
    at = _riser(laying, at, size, float(assembly.facts.stand.riser[0]))
    frame = (stand.frame or size).removesuffix("in").strip()
    end = _frame(laying, at, size if frame == OPEN else frame, legs, job)
    if open_riser and len(laying.pieces) > first:
        laying.open(End(first, 0), "the lake" if stand.inlet.screen == "none" else "the lake, under the screen")
    return end


def stands_on_legs(job: Job) -> bool:
    """Whether a stand of this form stands on legs; one of no form said does."""
    return job.stand.form in (*FORMS_ON_LEGS, None, OPEN)


def _legs(laying: Laying, job: Job) -> int:
    if job.stand.legs is not None or not stands_on_legs(job):
        return job.stand.legs or 0
    usual = int(defaults()["works.legs"].value)
    laying.notes.append(f"[stand] legs is not given: billed with {usual}")
    return usual


def foot_valve_of(laying: Laying, job: Job, assembly: Assembly) -> FootValve | None:
    """The foot valve of a job; none where a screen stands alone, or where the line is held otherwise."""
    inlet = job.stand.inlet
    if has_no_foot_valve(job):
        return None
    name = assembly.parts.get("[stand.inlet] stock", inlet.stock or "")
    valve = laying.stock.foot_valves.get(name)
    if valve is None:
        laying.gaps.append(f"[stand.inlet] stock {why_none(inlet.stock, 'a foot valve')}")
    return valve


def _inlet(laying: Laying, job: Job, assembly: Assembly, valve: FootValve | None) -> End | None:
    screen = laying.stock.screens.get(assembly.parts.get("[stand.inlet] screen", ""))
    if screen is not None:
        laying.place(Piece(STATION, screen))
    elif job.stand.inlet.screen != "none":
        laying.gaps.append(f"[stand.inlet] screen {why_none(job.stand.inlet.screen, 'a screen')}")
    return End(laying.place(Piece(STATION, valve)), 0) if valve else None


def _riser(laying: Laying, at: End | None, size: str, length: float) -> End | None:
    if math.isnan(length):
        laying.gaps.append("[stand] riser is not given, or open")
        return at
    nipples = nipples_to(laying.stock, size, length)
    if not nipples:
        laying.gaps.append(f"no nipple of {size} in is in stock")
    for nipple in nipples:
        at = laying.run(at, STATION, nipple)
    return at


def _frame(laying: Laying, at: End | None, size: str, legs: int, job: Job) -> End | None:
    """The frame: an elbow where nothing stands, else crosses and a tee with a leg on every port but two.

    Crosses and tees in a row leave two ports and one more for each tee, two for each cross: one takes the riser,
    one the line.
    """
    if not legs:
        return laying.run(at, STATION, laying.part("elbow", size))
    crosses, tees = divmod(legs, 2)
    kinds = ["cross"] * crosses + ["tee"] * tees
    hubs = [laying.part(kind, size) for kind in kinds]
    free: list[End] = []
    line: End | None = None
    for index, hub in enumerate(hubs):
        if hub is None:
            return line
        number = laying.follow(at, Piece(STATION, hub, through=None if index else (0, 2)))
        others = [End(number, port) for port in range(1, len(hub.ports))]
        if not index:
            line = others.pop(1)
        if index < len(hubs) - 1:
            at = others.pop(0)
        free += others
    for end in free:
        _leg(laying, end, size, job)
    return line


def _leg(laying: Laying, at: End, size: str, job: Job) -> None:
    """A leg of nipples with a cap: in the line's water, or blanked off at the frame and drilled."""
    reach = job.stand.reach.value if job.stand.reach else USUAL_REACH
    for nipple in nipples_to(laying.stock, size, reach):
        at = laying.end(at, STATION, nipple)
    cap = laying.part("cap", size)
    if cap is not None:
        laying.end(at, STATION, cap)
    if job.stand.wet == "dry":
        blank = _blank(laying, size)
        if blank is not None:
            laying.place(Piece(STATION, blank))
    elif job.stand.wet is None:
        laying.notes.append("[stand] wet is not given: the legs are billed as part of the suction path, without blanks")


def _blank(laying: Laying, size: str) -> Part | None:
    blank = next((part for part in laying.stock.parts.values() if (part.kind, part.size) == ("leg blank", size)), None)
    if blank is None:
        laying.gaps.append(f"no leg blank of {size} in is in stock")
    return blank
