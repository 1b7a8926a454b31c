"""How the line gets its first water, as facts."""

from __future__ import annotations

import math
from dataclasses import dataclass

from lakewright import units
from lakewright.job.models import Job
from lakewright.job.quantity import value_of
from lakewright.physics.types import Array
from lakewright.state.gather import Gather, defaults, one

CASING = units.read("1 gal", "volume")
"""ours: water in the casing of a house's pump whose maker says nothing [m3]."""


@dataclass(frozen=True, eq=False, repr=False)
class PrimingFacts:
    """How the line gets its first water."""

    draws_air: Array  # 1 where the pump draws the air out of the line itself, else 0
    air_rate: Array  # m3/s of air that it moves while there is no vacuum
    dead_head: Array  # m of water that its deepest vacuum holds up
    casing: Array  # m3 of water in its casing
    stand_water: Array  # m3 in riser and wet legs
    route_height: Array  # m, of the line at even lengths from the stand to the pump, on the last axis


def priming_facts(job: Job, route_height: Array, stand_water: float, gather: Gather) -> PrimingFacts:
    """How the line gets its first water.

    Parameters
    ----------
    route_height : [m] of the line at even lengths from the stand to the pump
    stand_water : [m3] in the stand's riser and wet legs
    """
    draws, place = _draws_air(job, gather), "[pump] air_rate"
    own = job.pump.casing_volume
    head = job.pump.prime_lift
    return PrimingFacts(
        draws_air=one(draws),
        air_rate=one(gather.number("priming.air_rate", job.pump.air_rate, place) if draws == 1.0 else 0.0),
        dead_head=one(defaults()["priming.dead_head"].value if head is None or head.open else head.value),
        casing=one((CASING if own is None or own.open else own.value) + _two_pipes(job)),
        stand_water=one(stand_water),
        route_height=route_height,
    )


def _draws_air(job: Job, gather: Gather) -> float:
    """Whether the pump draws the air out. It is asked only where no foot valve holds what is poured in."""
    given, place = job.pump.self_priming, "[pump] self_priming"
    if given is not None:
        return float(given)
    if job.holding.arrangement == "flooded" or (job.stand.inlet.kind != "screen" and not _checked_alone(job)):
        return 0.0
    word = gather.usual_word("priming.draws_air", None, "yes", place)
    lack = f"{place} is not given, and no foot valve holds what is poured in"
    return 1.0 if word == "yes" else gather.lack("priming.draws_air", lack)


def _two_pipes(job: Job) -> float:
    """Water in the pipes between a pump and an ejector hung below it [m3]."""
    given = job.pump.ejector
    length = value_of(given.pipe_length or given.below)
    bores = [each.value for each in (given.drive_bore, given.back_bore) if each is not None]
    return 0.0 if math.isnan(length) else length * math.fsum(0.25 * math.pi * bore * bore for bore in bores)


def _checked_alone(job: Job) -> bool:
    return job.holding.arrangement == "check at pump only"
