"""The pressure tank."""

from __future__ import annotations

import numpy as np

from lakewright.physics.types import Array


def drawdown_share(precharge: Array, cut_in: Array, cut_out: Array, atmosphere: Array) -> Array:
    """Share of a tank's volume that it gives between cut-out and cut-in.

    Parameters
    ----------
    precharge, cut_in, cut_out : [Pa] gauge; precharge at most cut_in
    atmosphere : [Pa] absolute

    Returns
    -------
    [share], broadcast shape

    Source: Boyle's law in absolute pressures, the acceptance factor of the "Pressure Tanks" bulletin (January 2007).

    >>> round(float(85.0 * drawdown_share(28.0, 30.0, 50.0, 14.7)), 1)
    25.1
    """
    return (precharge + atmosphere) / (cut_in + atmosphere) - (precharge + atmosphere) / (cut_out + atmosphere)


def cycle_time(drawdown: Array, pump_flow: Array, drawn: Array) -> Array:
    """Time from one start of the pump to the next while water is drawn steadily.

    Parameters
    ----------
    drawdown : [m3] that the tank gives between cut-out and cut-in
    pump_flow : [m3/s] on the mean while the tank fills
    drawn : [m3/s], above 0

    Returns
    -------
    [s], broadcast shape; infinite where the pump brings no more than is drawn

    Source: the tank emptied by what is drawn and filled by what is left over; shortest at half the pump's flow, as
    UFC 3-240-04A, table 7-1, and MIL-HDBK-1005/9A, 2.5.3.6 have it.

    >>> round(float(cycle_time(15.0, 10.0, 5.0)), 9)
    6.0
    """
    gains = pump_flow - drawn
    fills = gains > 0.0
    return np.where(fills, drawdown / drawn + drawdown / np.where(fills, gains, 1.0), np.inf)


def pressure_left(precharge: Array, cut_in: Array, atmosphere: Array, tank_volume: Array, drawn_volume: Array) -> Array:
    """Pressure in a tank from which water was drawn since it stood at cut-in, nothing coming in.

    Parameters
    ----------
    precharge, cut_in : [Pa] gauge; precharge at most cut_in
    atmosphere : [Pa] absolute
    tank_volume, drawn_volume : [m3]

    Returns
    -------
    [Pa] gauge, broadcast shape; 0 once no water is left

    Source: Boyle's law in absolute pressures, as `drawdown_share`.

    >>> precharge, cut_in, air, tank, drawn = (np.array([value]) for value in (28.0, 50.0, 14.7, 85.0, 25.1))
    >>> round(float(pressure_left(precharge, cut_in, air, tank, drawn)[0]))
    30
    """
    held = (precharge + atmosphere) * tank_volume
    air = held / (cut_in + atmosphere) + drawn_volume
    # Where nothing was drawn from no tank nothing has changed.
    left = np.where(air == 0.0, cut_in, held / np.where(air == 0.0, 1.0, air) - atmosphere)
    return np.where(air > tank_volume, 0.0, left)


# Source: Abramowitz and Stegun, Handbook of Mathematical Functions (1964), table 25.4, n = 3.
GAUSS_NODES = (-np.sqrt(0.6), 0.0, np.sqrt(0.6))
GAUSS_WEIGHTS = (5.0 / 9.0, 8.0 / 9.0, 5.0 / 9.0)


def filling_pressures(cut_in: Array, cut_out: Array) -> tuple[Array, Array, Array]:
    """Three pressures between cut-in and cut-out at which the filling flow is wanted.

    Parameters
    ----------
    cut_in, cut_out : [Pa] gauge

    Returns
    -------
    three of [Pa] gauge, broadcast shape

    Source: as `GAUSS_NODES`.

    >>> [round(float(p), 2) for p in filling_pressures(30.0, 50.0)]
    [32.25, 40.0, 47.75]
    """
    middle, half = 0.5 * (cut_in + cut_out), 0.5 * (cut_out - cut_in)
    first, second, third = GAUSS_NODES
    return middle + half * first, middle + half * second, middle + half * third


def filling_time(
    precharge: Array, cut_in: Array, cut_out: Array, atmosphere: Array, flows: tuple[Array, Array, Array]
) -> Array:
    """Time a pump runs from cut-in to cut-out while nobody draws, for each unit of tank volume.

    Parameters
    ----------
    precharge, cut_in, cut_out : [Pa] gauge
    atmosphere : [Pa] absolute
    flows : three of [m3/s], at `filling_pressures`

    Returns
    -------
    [s/m3], broadcast shape; infinite where a flow is 0

    Source: the integral of dV/q with V by Boyle's law, by three-point Gauss quadrature (`GAUSS_NODES`).

    >>> round(float(filling_time(28.0, 30.0, 50.0, 14.7, (2.0, 2.0, 2.0))), 4)
    0.1476
    """
    half = 0.5 * (cut_out - cut_in)
    with np.errstate(divide="ignore"):
        parts = [
            weight / ((pressure + atmosphere) * (pressure + atmosphere)) / flow
            for weight, pressure, flow in zip(GAUSS_WEIGHTS, filling_pressures(cut_in, cut_out), flows, strict=True)
        ]
    return half * (precharge + atmosphere) * (parts[0] + parts[1] + parts[2])
