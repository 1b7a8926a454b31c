"""A pump whose ejector is given by its sizes: turned once into the table that the walk reads, and what else it asks."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from lakewright.job.models import Job
from lakewright.job.quantity import value_of
from lakewright.physics import water
from lakewright.physics.curve import Curve, straight_lines, unknown_curve
from lakewright.physics.ejector_pump import EjectorPump, Tube
from lakewright.physics.jet import JetTable
from lakewright.physics.types import Array
from lakewright.state.gather import Gather, one

TUBE_ROUGHNESS = 1.5e-6
"""Of plastic drive and return pipes [m]. Source: appendix on wall roughness of a public course, drawn tubing."""


@dataclass(frozen=True, eq=False, repr=False)
class EjectorFacts:
    """An ejector of known sizes. Of one that stands in its maker's table alone nothing more is asked."""

    fitted: Array  # 1 where its sizes are known, else 0
    annulus: Array  # m2 of its throat beside the jet
    cavitation: Array  # pressure over boiling, over the velocity pressure beside the jet, at which water boils there
    below: Array  # m, how far under the pump it hangs
    outlet_held: Array  # Pa gauge that a control valve keeps at the pump's outlet, 0 without one
    least_outlet: Curve  # Pa gauge, under which the pump's inlet asks more than is there, over equivalent lift [m]


def no_ejector() -> EjectorFacts:
    """Where there is none of known sizes."""
    return EjectorFacts(one(0.0), one(1.0), one(1.0), one(0.0), one(0.0), straight_lines([0.0, 1.0], [0.0, 0.0]))


def is_by_sizes(job: Job) -> bool:
    """Whether the job gives an ejector by its sizes."""
    return job.pump.ejector.nozzle is not None


def ejector_facts(
    job: Job, curve: Curve, required: Curve, temperatures: Array, gather: Gather
) -> tuple[JetTable, EjectorFacts] | None:
    """The table of a pump with its ejector, and the ejector; nothing where too little is known of the two.

    Parameters
    ----------
    curve, required : head [m] and net suction head [m] over all the flow through the pump; blank where not known
    temperatures : [K] of the water, one a day
    """
    unit = _unit(job, curve, required, temperatures, gather)
    if unit is None:
        return None
    # At the pump's side the ejector lifts the water into the pump, and nothing more is asked.
    least = no_ejector().least_outlet
    if unit.below > 0.0:
        least = unknown_curve() if np.isnan(required.last).any() else unit.least_outlets()
    if np.isnan(least.last).any():
        gather.lack("ejector.least_outlet", "[[pump.npsh]] is not given: by it a pump over two pipes keeps its prime")
    return unit.table(), EjectorFacts(
        fitted=one(1.0),
        annulus=one(unit.throat - unit.nozzle),
        cavitation=one(unit.cavitation),
        below=one(unit.below),
        outlet_held=one(unit.least_outlet),
        least_outlet=least,
    )


def _unit(job: Job, curve: Curve, required: Curve, temperatures: Array, gather: Gather) -> EjectorPump | None:
    """The pump with its ejector, in water as warm as it gets; nothing where too little is known."""
    given = job.pump.ejector
    below = 0.0 if given.below is None else gather.number("pump.jet", given.below, "[pump.ejector] below")
    throat = gather.number("pump.jet", given.throat, "[pump.ejector] throat", kind="bore")
    drive, back = (_tube(job, name, below, gather) for name in ("drive", "back"))
    nozzle_loss, entry_loss, mixing_loss, cavitation = (
        gather.number(f"pump.ejector.{name}", getattr(given, name), f"[pump.ejector] {name}")
        for name in ("nozzle_loss", "entry_loss", "mixing_loss", "cavitation")
    )
    warmest = one(float(temperatures.max()))
    if np.isnan(curve.last).any() or np.isnan(warmest).any():
        gather.lack("pump.jet", "the curve of the pump that drives the ejector, or the water's warmth, is not known")
    if "pump.jet" in gather.missing:
        return None
    density = float(water.density(warmest)[0])
    return EjectorPump(
        curve=curve,
        required=required,
        nozzle=_area(value_of(given.nozzle)),
        throat=_area(throat),
        nozzle_loss=nozzle_loss,
        entry_loss=entry_loss,
        mixing_loss=mixing_loss,
        cavitation=cavitation,
        below=below,
        drive=drive,
        back=back,
        least_outlet=0.0 if given.back_pressure is None else given.back_pressure.value,
        density=density,
        viscosity=float(water.dynamic_viscosity(warmest)[0]) / density,
        vapour_pressure=float(water.vapour_pressure(warmest)[0]),
    )


def _area(bore: float) -> float:
    """Of a bore [m], [m2]."""
    return 0.25 * math.pi * bore * bore


def _tube(job: Job, name: str, below: float, gather: Gather) -> Tube:
    """The pipe down to the ejector, or the one back up; none where it sits at the pump."""
    given = job.pump.ejector
    if below == 0.0:
        return Tube(1.0, 0.0, TUBE_ROUGHNESS)
    field = f"{name}_bore"
    bore = gather.number("pump.jet", getattr(given, field), f"[pump.ejector] {field}", kind="bore")
    length = below if given.pipe_length is None else given.pipe_length.value
    return Tube(bore, length, TUBE_ROUGHNESS)
