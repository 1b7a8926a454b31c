"""The wall of the suction line as facts: what it bears from outside and from inside, as warm as it gets."""

from __future__ import annotations

import math

import numpy as np

from lakewright.job.models import Job
from lakewright.physics import collapse, rating
from lakewright.physics.types import Array
from lakewright.state.gather import OPEN, Gather, defaults, one
from lakewright.stock.rows import Pipe

WALL = (
    *("outside", "wall", "ovality", "poisson", "long_modulus", "short_modulus"),
    *("vacuum_rating", "allowed_pressure"),
)
"""Facts of the suction line that its wall decides; a search sets them with the pipe."""

# memory: modulus [Pa] and Poisson's ratio, which neither time nor a warm day moves.
METALS = {"copper": (117e9, 0.34), "galvanized steel": (200e9, 0.29)}


def wall_temperature(job: Job, gather: Gather) -> float:
    """How warm the part on the bank may get [K]: as in the sun where nobody has said that it lies in the shade."""
    sunlit = job.suction.sunlit
    name = "suction.wall_temperature" if sunlit is False else "suction.wall_temperature in the sun"
    if sunlit is None:
        return gather.default("suction.wall_temperature", "[suction] sunlit", name)
    return defaults()[name].value


def wall_facts(job: Job, pipe: Pipe | None, gather: Gather) -> dict[str, Array]:
    """What the wall of the suction line decides. A line of no pipe in stock needs its two ratings."""
    warmth = wall_temperature(job, gather)
    if pipe is not None:
        found = wall_of(job, pipe, warmth)
    else:
        found = dict.fromkeys(WALL, math.nan)
        found |= {"outside": 2.0, "wall": 1.0, "ovality": 0.0, "poisson": 0.0, **_rated(job)}
        found |= {name: math.inf for name in ("long_modulus", "short_modulus") if "vacuum_rating" in _rated(job)}
        asked = {"vacuum_rating": "vacuum_rating", "allowed_pressure": "pressure_rating"}
        for name, field in asked.items():
            is_open = job.suction.stock == OPEN
            why = "stock is open: design chooses it" if is_open else f"{field} is not given, and no stock"
            if math.isnan(found[name]):
                gather.lack(f"suction.{name}", f"[suction] {why}")
    return {name: one(value) for name, value in found.items()}


def _rated(job: Job) -> dict[str, float]:
    """The ratings that a job gives its line itself."""
    given = {"vacuum_rating": job.suction.vacuum_rating, "allowed_pressure": job.suction.pressure_rating}
    return {name: quantity.value for name, quantity in given.items() if quantity is not None}


def wall_of(job: Job, pipe: Pipe, warmth: float) -> dict[str, float]:
    """The same for a pipe in stock, its wall as warm as it gets [K]; a rating that the job gives stands over ours."""
    temperature = one(warmth)
    printed, decides = not math.isnan(pipe.vacuum_rating), math.inf
    by_warmth = _pressure_share(pipe, temperature)
    found = {
        "outside": pipe.outside,
        "wall": pipe.wall,
        "ovality": defaults()[f"suction.ovality of {'coiled' if len(pipe.coils) else 'straight'} pipe"].value,
        "poisson": 0.0 if printed else _poisson(pipe),
        "long_modulus": decides if printed else _modulus(pipe, collapse.LONG_LOAD, temperature),
        "short_modulus": decides if printed else _modulus(pipe, collapse.SHORT_LOAD, temperature),
        # ours: a printed vacuum falls with warmth as the pressure of PVC does; makers print that it falls fast.
        "vacuum_rating": pipe.vacuum_rating * float(by_warmth[0]) if printed else decides,
        "allowed_pressure": float(
            rating.allowed_pressure(one(pipe.rating), by_warmth, _joint_share(pipe, temperature))[0]
        ),
    }
    own = _rated(job)
    if "vacuum_rating" in own:
        found |= {"long_modulus": decides, "short_modulus": decides}
    return found | own


def _poisson(pipe: Pipe) -> float:
    return METALS[pipe.compound][1] if pipe.compound in METALS else collapse.poisson_of(pipe.compound)


def _modulus(pipe: Pipe, load_time: float, temperature: Array) -> float:
    if pipe.compound in METALS:
        return METALS[pipe.compound][0]
    plastic = pipe.compound in collapse.RIGID_PVC
    stiffness = (collapse.pvc_stiffness if plastic else collapse.polyethylene_stiffness)(temperature)
    moduli = tuple(one(each) for each in collapse.moduli_of(pipe.compound))
    return float(collapse.apparent_modulus(moduli, one(load_time), stiffness)[0])


def _pressure_share(pipe: Pipe, temperature: Array) -> Array:
    """Share of its rating that warmth leaves a pipe; hose is taken as PVC (ours: soft PVC loses no less)."""
    if pipe.compound in METALS:
        return np.ones(1)
    plastic = pipe.compound.startswith("PE")
    return (rating.polyethylene_rating_share if plastic else rating.pvc_rating_share)(temperature)


def _joint_share(pipe: Pipe, temperature: Array) -> Array:
    """Share that its ends leave: PVC with threads keeps half, all else is joined over its whole wall."""
    threaded = pipe.compound in collapse.RIGID_PVC and pipe.ports[0].kind.startswith("thread")
    return rating.thread_rating_share(temperature) if threaded else np.ones(1)
