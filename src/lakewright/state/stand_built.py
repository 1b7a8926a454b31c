"""From what is asked of a stand to the stand as built."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache

from lakewright.job.models import Job
from lakewright.job.quantity import Quantity, is_given
from lakewright.physics.types import GRAVITY
from lakewright.state.gather import OPEN, defaults
from lakewright.state.holding import ATTITUDES
from lakewright.state.path import is_threaded, usual_part
from lakewright.state.placed import At, Stand
from lakewright.state.runs import run_of
from lakewright.state.stand_ballast import ballast_on, ballast_pieces, beside, cheapest, lay_pads, pad_for
from lakewright.state.stand_build import Building, fitting_outside, straight_length
from lakewright.state.stand_frame import MOST_LEGS, kinds_wanted, lay_frame, lay_suction_tee, tips_of, usual_size
from lakewright.state.stand_head import FLOAT_TO_INLET, Head, lay_hanging, lay_level, lay_line_end, lay_riser, reducers
from lakewright.stock.load import Stock
from lakewright.stock.rows import FootValve, Part, Pipe, Screen

FORMS_ON_LEGS = ("upright", "side", "low")
USUAL_REACH = 0.4572
"""ours: 18 in from the riser's axis to the tip of a leg, where a job does not say."""
FLOAT_RESERVE = 1.5
"""ours: a float bears half as much again as what hangs from it weighs in water."""
_LAKE = 1000.0
"""ours: fresh water [kg/m3], to choose a float by."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked of a stand, all of it settled.

    size: nominal, of the frame; reach [m]; wet: legs in the suction path; riser [m]: from the bed to the entrance of
    the inlet, nan where it is not known; lowest: as low as it will go; depth [m] of water; pipe: the suction line's;
    pads [m]: width, 0 for none; ballast: words, and its mass [kg], 0 for none; tether [m]: length, 0 for none.
    """

    form: str
    head: Head
    size: str
    legs: int
    reach: float
    wet: bool
    riser: float
    lowest: bool
    depth: float
    pipe: Pipe | None
    pads: float
    ballast: str | None
    ballast_mass: float
    pins: int
    tether: float
    notes: tuple[str, ...] = ()


def asked_of(
    job: Job,
    valve: FootValve | None,
    screen: Screen | None,
    pipe: Pipe | None,
    riser: float,
    depth: float,
    line_size: str = "",
) -> Asked:
    """What a job asks of its stand; what it does not say is taken as usual, and noted.

    Parameters
    ----------
    job : as read
    valve, screen : at the inlet, none where there is none
    pipe : the suction line's
    riser, depth : [m], nan where not known
    line_size : nominal, for the frame of a stand without a valve
    """
    stand, notes = job.stand, []
    form = stand.form if stand.form not in (None, OPEN) else "upright"
    on_legs = form in FORMS_ON_LEGS
    attitude = stand.inlet.attitude or ATTITUDES.get(form, "up")
    if not on_legs and attitude != "down":
        notes.append(f"[stand.inlet] attitude {attitude}: what is {form} hangs, and is built so")
        attitude = "down"
    if valve is not None and attitude not in valve.attitudes:
        notes.append(f"{valve.name} does not seat when its entrance points {attitude}")
    legs = stand.legs if stand.legs is not None else int(defaults()["works.legs"].value)
    if on_legs and stand.legs is None:
        notes.append(f"[stand] legs is not given: built with {legs}")
    if on_legs and stand.wet is None:
        notes.append("[stand] wet is not given: the legs are built as part of the suction path")
    if on_legs and not 3 <= legs <= MOST_LEGS:
        notes.append(f"a frame has 3 to 6 legs: {legs} do not stand by themselves, and no more than 6 are built")
    return Asked(
        form=form,
        head=Head(valve, screen, attitude),
        size=usual_size(job, valve.size if valve else pipe.size if pipe else line_size),
        legs=min(max(legs, 1), MOST_LEGS) if on_legs else 0,
        reach=_value(stand.reach, USUAL_REACH),
        wet=stand.wet != "dry",
        riser=riser,
        lowest=form == "low" and _value(stand.riser, 0.0) == 0.0,
        depth=depth,
        pipe=pipe,
        pads=_value(stand.pads, 0.0),
        ballast=stand.ballast.what,
        ballast_mass=_value(stand.ballast.mass, 0.0),
        pins=stand.pins or 0,
        tether=_value(stand.at, 0.0) if stand.tether else 0.0,
        notes=tuple(notes),
    )


def _value(given: Quantity | None, otherwise: float) -> float:
    return given.value if is_given(given) else otherwise


@lru_cache(maxsize=4)
def built(asked: Asked, stock: Stock) -> Stand:
    """The stand as built from the stock; with nothing in it, and gaps, where its parts cannot be had.

    Facts, path and bill ask for the same one.
    """
    on_legs = asked.form in FORMS_ON_LEGS
    building = Building(stock, asked.size, notes=list(asked.notes))
    building.gaps += lacking(asked, stock)
    if building.gaps:
        return _stand(asked, building, None, math.nan, math.nan, (), ())
    valve = asked.head.valve
    if valve is not None and valve.size != asked.size and not reducers(building, asked.head):
        building.gaps.append(f"{valve.name} does not join a frame of {asked.size} in")
        asked = replace(asked, head=replace(asked.head, valve=None))
    if math.isnan(asked.riser):
        building.gaps.append("[stand] riser is not given, or open")
        asked = replace(asked, riser=0.0)
    return _on_legs(asked, building) if on_legs else _hanging(asked, building)


def lacking(asked: Asked, stock: Stock) -> list[str]:
    """What a stand of this size and form is made of that the stock has not."""
    on_legs = asked.form in FORMS_ON_LEGS
    kinds = kinds_wanted(asked.legs, asked.wet) if on_legs else ("elbow", "coupling")
    gaps = [f"no {kind} of {asked.size} in is in stock" for kind in kinds if not usual_part(stock, kind, asked.size)]
    if not any(is_threaded(part, asked.size) for part in stock.parts_of("nipple")):
        gaps.append(f"no nipple of {asked.size} in is in stock")
    elif run_of(stock, asked.size, 0.0) is None or f"PVC, schedule 80, {asked.size} in" not in stock.pipes:
        gaps.append(f"no threaded pipe of {asked.size} in is in stock")
    return gaps


def _on_legs(asked: Asked, building: Building) -> Stand:
    stock = building.stock
    pad = pad_for(stock, asked.pads) if asked.pads > 0.0 else None
    if asked.pads > 0.0 and pad is None:
        building.gaps.append("no mud pad in stock is as wide as [stand] pads")
    thickness = pad.figures["thickness"] if pad else 0.0
    height = 0.5 * fitting_outside(stock, asked.size) + thickness
    top, line = lay_frame(building, asked.legs, asked.reach, asked.wet, height)
    tips = tips_of(building, line)
    entrance, line = _riser(asked, building, top, line)
    end = lay_line_end(building, line, asked.pipe)
    if pad is not None:
        lay_pads(building, tips, pad)
    pieces = _ballast(asked, building, tips)
    extras = beside(stock, pieces, asked.pins, asked.tether)
    return _stand(asked, building, end, height, entrance, tips, extras)


def _riser(asked: Asked, building: Building, top: At, line: At | None) -> tuple[float, At]:
    """Riser and head on a frame: the height of the entrance got, and the mouth the line leaves by."""
    head, height = asked.head, 0.0 if asked.lowest else asked.riser
    if line is not None:
        return lay_riser(building, top, head, height), line
    tee, blind = building.part("tee"), building.part("blind nipple")
    level_at = building.mouth(top).at[2] + straight_length(building.stock, blind, blind.length) + tee.length
    level = asked.form == "low" and head.attitude == "side" and height <= level_at
    up, line = lay_suction_tee(building, top, level)
    return (lay_level(building, up, head) if level else lay_riser(building, up, head, height)), line


def _ballast(asked: Asked, building: Building, tips: tuple[tuple[float, float, float], ...]) -> int:
    if asked.ballast_mass <= 0.0:
        return 0
    found = ballast_pieces(building.stock, asked.ballast, asked.ballast_mass, len(tips))
    if found is None:
        building.notes.append(f"no ballast in stock is {asked.ballast or 'steel angle'} for that mass")
        return 0
    building.placed += list(ballast_on(building.placed, tips, *found))
    return found[1]


def _hanging(asked: Asked, building: Building) -> Stand:
    """A drop pipe under an elbow: from a dock or a wall, under a float, or in a stilling pipe in the bank."""
    head, known = asked.head, not math.isnan(asked.depth)
    bottom, drop = asked.riser, asked.riser
    if asked.form == "floating":
        drop = FLOAT_TO_INLET
        bottom = max(asked.depth - drop - head.length, 0.0) if known else asked.riser
    elif known:
        drop = asked.depth - bottom - head.length
    line, entrance = lay_hanging(building, head, bottom, drop)
    end = lay_line_end(building, line, asked.pipe)
    return _stand(asked, building, end, 0.0, entrance, (), _hung_by(asked.form, building))


def _hung_by(form: str, building: Building) -> tuple[tuple[str, float], ...]:
    """What it hangs from, by name in stock and count."""
    stock = building.stock
    kind = {"hung": "bracket", "box": "stilling pipe", "floating": "float"}[form]
    part: Part | None = cheapest(stock, kind)
    if part is None:
        building.gaps.append(f"no {kind} is in stock")
        return ()
    if form != "floating":
        return ((part.name, 1.0),)
    weight = GRAVITY * math.fsum(each.mass - _LAKE * each.solid for each in building.placed)
    counted = [
        (math.ceil(FLOAT_RESERVE * max(weight, 1.0) / each.figures["buoyancy"]), each)
        for each in stock.parts_of("float")
    ]
    count, part = min(counted, key=lambda each: (each[0] * each[1].price, each[1].name))
    return ((part.name, float(count)),)


def _stand(
    asked: Asked,
    building: Building,
    end: At | None,
    axis: float,
    entrance: float,
    tips: tuple[tuple[float, float, float], ...],
    extras: tuple[tuple[str, float], ...],
) -> Stand:
    return Stand(
        form=asked.form,
        size=asked.size,
        wet=asked.wet,
        placed=tuple(building.placed),
        joins=tuple(building.joins),
        openings=tuple(building.openings),
        line_end=end,
        axis_height=axis,
        inlet_height=entrance,
        inlet_rise=asked.head.rise,
        tips=tips,
        beside=extras,
        gaps=tuple(dict.fromkeys(building.gaps)),
        notes=tuple(dict.fromkeys(building.notes)),
    )
