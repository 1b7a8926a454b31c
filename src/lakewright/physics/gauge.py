"""What the gauge at the pump's inlet reads, on the side of the line: the pump standing, the pump running."""

from __future__ import annotations

import numpy as np

from lakewright.physics.types import GRAVITY, Array


def standing_pressure(
    holds_at_inlet: Array,
    holds_at_pump: Array,
    airtight: Array,
    gauge_height: Array,
    tank_pressure: Array,
    tank_height: Array,
    density: Array,
) -> Array:
    """Pressure in the suction line at the pump while the pump rests.

    Parameters
    ----------
    holds_at_inlet : [-] 1 where a foot valve holds, else 0
    holds_at_pump : [-] 1 where a check valve at the pump holds, else 0
    airtight : [share] of its vacuum that the line has kept: 1 where it takes in no air, which keeps it full though
        nothing holds at the inlet; 0 where air has come in at the pump, which lets go of the gauge though water stands
    gauge_height : [m] of the gauge over the water, negative when flooded
    tank_pressure : [Pa] gauge, at the tank's tee
    tank_height : [m] of the tank's tee over the water
    density : [kg/m3]

    Returns
    -------
    [Pa] gauge, broadcast shape: the tank's pressure and head where only a foot valve holds, the lift as vacuum where
    a check holds a full line, 0 where air has come in or the line has run empty; nan where one of the first three is

    Source: hydrostatics.

    >>> foot, check = np.array([1.0, 1.0, 0.0]), np.array([0.0, 1.0, 1.0])
    >>> [round(float(p) / 1000.0, 1) for p in standing_pressure(foot, check, 1.0, 3.0, 276e3, 5.0, 1000.0)]
    [295.6, -29.4, -29.4]
    """
    hanging = -gauge_height * density * GRAVITY
    # A line that nobody keeps full still stands at the water's own level.
    drained = np.maximum(hanging, 0.0)
    kept = drained + airtight * (hanging - drained)
    pressed = tank_pressure + (tank_height - gauge_height) * density * GRAVITY
    open_at_pump = np.where(holds_at_inlet > 0.0, pressed, drained)
    # No number answers for a valve nobody has looked at: 0 times nan is nan.
    unknown = 0.0 * (holds_at_inlet + holds_at_pump + airtight)
    return np.where(holds_at_pump > 0.0, kept, open_at_pump) + unknown


def running_pressure(suction_lift: Array, speed: Array, density: Array) -> Array:
    """Pressure at the pump's inlet while the pump runs.

    Parameters
    ----------
    suction_lift : [m] height of the gauge over the water plus all losses up to it; negative when flooded
    speed : [m/s] in the pipe where the gauge is tapped
    density : [kg/m3]

    Returns
    -------
    [Pa] gauge, broadcast shape; negative is vacuum

    Source: Bernoulli's equation from the water's surface to the tap, which does not feel the velocity head.

    >>> round(float(running_pressure(3.8118, 0.7846, 999.1)) / 3386.39, 2)
    -11.12
    """
    return -(suction_lift + speed * speed * (0.5 / GRAVITY)) * density * GRAVITY


def lowest_pressure(atmosphere: Array, vapour_pressure: Array) -> Array:
    """Reading of the gauge when the water at the pump boils: no vacuum is deeper.

    Parameters
    ----------
    atmosphere : [Pa] absolute, at the pump
    vapour_pressure : [Pa] absolute, of the water

    Returns
    -------
    [Pa] gauge, broadcast shape

    Source: definition.

    >>> round(lowest_pressure(101325.0, 1228.2) / 3386.39, 2)
    -29.56
    """
    return vapour_pressure - atmosphere
