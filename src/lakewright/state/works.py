"""The quantities of work in a job: how many metres, joints and pieces, and how they are got at."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from lakewright.job.models import Job
from lakewright.job.quantity import is_given
from lakewright.state.assemble import Assembly
from lakewright.state.gather import Assumed, Gather
from lakewright.state.stand_built import FORMS_ON_LEGS

FORMS_FROM_SHORE = ("hung", "box")
"""Forms of stand that are set by hand from dock, wall or bank; the others are set from a boat."""

WORDS_FOR = {
    "stand": ("stand", "intake", "intake stand"),
    "suction": ("line", "suction", "suction line"),
    "pump": ("pump",),
    "delivery": ("delivery", "delivery line"),
    "tank": ("tank", "pressure tank"),
}
"""What `[have] part` may say for what is then neither built nor laid nor set again."""


@dataclass(frozen=True, slots=True)
class Works:
    """Quantities of work; lengths in metres. 0 is no such work, nan is work of which nobody knows how much."""

    visits: float
    stands: float
    legs: float
    set_from_boat: float  # 1 where stand or line is set from a boat
    set_from_shore: float  # 1 where it is set from dock, wall or bank
    water_length: float  # of the suction line, in the water
    bank_length: float  # of both lines, on the ground
    digger_length: float  # of both lines, in a trench a digger makes
    hand_length: float  # of both lines, in a trench dug by hand
    pumps: float
    tanks: float
    joints: float
    branches: float
    steps: float  # of the treatment
    carry_length: float  # by hand
    assumed: tuple[Assumed, ...] = ()
    missing: tuple[str, ...] = ()  # why a quantity is nan


def works_of(job: Job, assembly: Assembly, joints: int) -> Works:
    """The quantities of work of a job.

    Parameters
    ----------
    job : as read
    assembly : its facts; a length nobody gave makes the work along it unknown
    joints : how many joints are made up, from the bill

    Returns
    -------
    Works; what is there already and stays (`keep = true`) asks none
    """
    gather = Gather(job.job.grade)
    kept = _kept(job)
    water, bank = (0.0, 0.0) if "suction" in kept else _suction_lengths(job, assembly, gather)
    delivery = 0.0 if "delivery" in kept else _known(assembly, "delivery.length", gather)
    stands = float("stand" not in kept)
    boat, shore = _set_from(job, gather) if stands or "suction" not in kept else (0.0, 0.0)
    buried, trench = _buried(job, water, bank, delivery, gather)
    digger, by_hand = _dug(job, trench, gather)
    return Works(
        visits=1.0,
        stands=stands,
        legs=_legs(job, gather) if stands else 0.0,
        set_from_boat=boat,
        set_from_shore=shore,
        water_length=water,
        bank_length=bank + delivery - buried,
        digger_length=digger,
        hand_length=by_hand,
        pumps=float("pump" not in kept),
        tanks=float("tank" not in kept),
        joints=float(joints),
        branches=float(max(len(job.need.branches), 1)),
        steps=float(len(job.treatment.steps)),
        carry_length=job.access.carry.value if job.access.carry else 0.0,
        assumed=tuple(gather.assumed.values()),
        missing=tuple(gather.missing.values()),
    )


def _kept(job: Job) -> set[str]:
    said = {(have.part or "").strip().casefold() for have in job.have.values() if have.keep}
    return {thing for thing, words in WORDS_FOR.items() if said & set(words)}


def _known(assembly: Assembly, fact: str, gather: Gather) -> float:
    value = float(assembly.facts.value(fact)[0])
    return gather.lack(fact, assembly.missing.get(fact, f"{fact} is not known")) if math.isnan(value) else value


def _suction_lengths(job: Job, assembly: Assembly, gather: Gather) -> tuple[float, float]:
    """Length of the suction line in the water and on the bank [m]."""
    bed = _known(assembly, "suction.bed_length", gather)
    bank = _known(assembly, "suction.bank_length", gather)
    if is_given(job.suction.length):
        # The length given is of the whole line; what of it lies on the bank is as far as the pump is from the water.
        bank = min(job.pump.distance.value, bed) if is_given(job.pump.distance) else 0.0
        return bed - bank, bank
    along = 1.0 + float(assembly.facts.suction.along[0])
    return bed * along, bank * along


def _set_from(job: Job, gather: Gather) -> tuple[float, float]:
    """Whether stand and line are set from a boat, and whether from the shore."""
    form = job.stand.form
    if form in FORMS_FROM_SHORE:
        return 0.0, 1.0
    if form in (None, "open"):
        if gather.grade == "build":
            return gather.lack("works.set_from_boat", "[stand] form is not given"), 0.0
        gather.assume("works.set_from_boat", 1.0, "count", "set from a boat, as most stands are (ours)", "[stand] form")
    return 1.0, 0.0


def _legs(job: Job, gather: Gather) -> float:
    if job.stand.legs is not None:
        return float(job.stand.legs)
    if job.stand.form not in (*FORMS_ON_LEGS, None, "open"):
        return 0.0
    return gather.default("works.legs", "[stand] legs", "works.legs")


def _buried(job: Job, water: float, bank: float, delivery: float, gather: Gather) -> tuple[float, float]:
    """Length on land that lies in a trench, and length of the whole trench [m], what is dug at low water in it."""
    out = job.suction.buried_from
    suction = bank if out is not None else bank * _for_winter(job, "[suction] buried_from", bank, gather)
    told = job.delivery.buried
    house = delivery * (_for_winter(job, "[delivery] buried", delivery, gather) if told is None else float(told))
    wet = 0.0 if out is None else float(np.minimum(out.value, water))
    return suction + house, suction + house + wet


def _for_winter(job: Job, place: str, length: float, gather: Gather) -> float:
    """1 where a line nobody said is buried must be, for the winter; 0 where it is taken in or emptied."""
    if length == 0.0 or job.need.season in ("hauled", "drained"):
        return 0.0
    if gather.grade == "build":
        return gather.lack(f"works.buried {place}", f"{place} is not given")
    why = "a line that stays in winter lies below frost (ours)"
    gather.assume(f"works.buried {place}", 1.0, "count", why, place)
    return 1.0


def _dug(job: Job, trench: float, gather: Gather) -> tuple[float, float]:
    """Lengths of trench dug by a digger and by hand [m]."""
    if trench == 0.0 or job.access.digger == "yes":
        return trench, 0.0
    if job.access.digger == "no":
        return 0.0, trench
    if gather.grade == "build":
        return gather.lack("works.digger_length", "[access] digger is not given"), 0.0
    gather.assume("works.digger_length", trench, "length", "a digger gets to the trench (ours)", "[access] digger")
    return trench, 0.0
