"""An open store that one pump fills and another draws from: its water over a day."""

from __future__ import annotations

import numpy as np

from lakewright.physics.types import Array

# Source: Pennsylvania State University Extension, water system planning (2022): the whole day in a peak of two hours.
PEAK_TIME = 7200.0
"""Time in which a household may draw what it uses in a whole day [s]."""

DAY = 86_400.0


def least_content(store_volume: Array, inflow: Array, draws: tuple[Array, ...], step: Array) -> Array:
    """The least water left in a store that begins full, is filled steadily and is drawn from step by step.

    Parameters
    ----------
    store_volume : [m3] between its outlet and where a float stops the filling
    inflow : [m3/s] while it is not full
    draws : [m3/s], one a step
    step : [s]

    Returns
    -------
    [m3], broadcast shape; negative where it lacked as much

    Source: balance of mass, step by step. Inflow and draw are steady in a step, so the least stands at the end of one.

    >>> full, none, two, an_hour = (np.array([value]) for value in (3.0, 0.0, 2.0, 1.0))
    >>> float(least_content(full, np.array([0.5]), (two, two, none), an_hour)[0])
    0.0
    """
    content = store_volume + 0.0 * inflow
    least = content
    for draw in draws:
        content = np.minimum(content + (inflow - draw) * step, store_volume)
        least = np.minimum(least, content)
    return least


def peak_draws(per_day: Array) -> tuple[Array, ...]:
    """What is drawn in each two hours of two days, when all of a day's use falls into one two-hour peak.

    Parameters
    ----------
    per_day : [m3] used in a day

    Returns
    -------
    24 of [m3/s], same shape; the two peaks lie a day apart, so that a store that is not made good overnight shows it

    Source: as `PEAK_TIME`.

    >>> draws = peak_draws(np.array([7.2]))
    >>> len(draws), float(draws[0][0]), float(draws[1][0]), float(draws[12][0])
    (24, 0.001, 0.0, 0.001)
    """
    none, peak = 0.0 * per_day, per_day / PEAK_TIME
    a_day = (peak, *[none] * (round(DAY / PEAK_TIME) - 1))
    return (*a_day, *a_day)


def weeping_cycle(drawdown: Array, trickle: Array, stop_delay: Array) -> Array:
    """Time from start to start of a pump that a controller stops, while a trickle empties the little tank beside it.

    Parameters
    ----------
    drawdown : [m3] that the tank gives from where the pump stops to where it starts again
    trickle : [m3/s] that runs, less than keeps the controller running
    stop_delay : [s] that the controller runs the pump on

    Returns
    -------
    [s], broadcast shape; infinite where nothing runs

    Source: the cycle of a tank that is drawn from steadily, UFC 3-240-04A, table 7-1, with filling taken to take no
    time (ours: it makes the cycle shorter, and a pump fills so little in seconds).

    >>> round(float(weeping_cycle(np.array([3.785e-3]), np.array([6.309e-6]), np.array([10.0]))[0]))
    610
    """
    with np.errstate(divide="ignore", invalid="ignore"):
        emptied = np.where(trickle == 0.0, np.inf, drawdown / trickle)
    return emptied + stop_delay
