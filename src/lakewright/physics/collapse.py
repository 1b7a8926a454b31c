"""What a pipe's wall bears from outside: vacuum within, held for an hour or for years."""

from __future__ import annotations

import numpy as np

from lakewright.physics.types import Array
from lakewright.physics.warmth import Fahrenheit

PSI = 6894.757293168361
"""One pound-force on a square inch [Pa]. Source: NIST SP 811 (2008), appendix B.8, pound, inch and standard gravity."""

HOUR = 3600.0
YEAR = 365.25 * 24.0 * HOUR  # ours: the Julian year; a day more or less moves no digit of a modulus

LOAD_TIMES = (0.5 * HOUR, 2.0 * HOUR, 12.0 * HOUR, 100.0 * HOUR, YEAR, 50.0 * YEAR)
"""Times a load lasts [s], for which `moduli_of` gives the modulus. Source: Handbook of PE Pipe, table B.1.1."""

LONG_LOAD = LOAD_TIMES[-1]
"""ours: a vacuum that a valve holds whenever the pump rests lasts as long as the pipe [s]."""

SHORT_LOAD = LOAD_TIMES[2]
"""ours: losses while the pump runs come and go; half a day is longer than any run [s]."""

# Source: Handbook of PE Pipe, chapter 3, appendix B, table B.1.1, at 73 F; psi, one a time of `LOAD_TIMES`.
_POLYETHYLENE = {
    "PE2": (62000.0, 57000.0, 48000.0, 42000.0, 30000.0, 22000.0),
    "PE3": (78000.0, 71000.0, 60000.0, 52000.0, 38000.0, 28000.0),
    "PE4": (82000.0, 74000.0, 63000.0, 55000.0, 40000.0, 29000.0),
}
RIGID_PVC = ("PVC 1120", "PVC 12454")
"""Codes of the PVC that pipe is made of; the soft PVC of hose has neither modulus nor rating here."""

# Source of the first: property data of PVC pipe, 400 000 psi (another sheet has 420 000). memory: the last, of years.
_PVC = (400000.0, 140000.0)

# memory: for years of load; short loads have 0.35 to 0.42, which lowers the pressure of collapse by up to 9 %.
_POISSON_POLYETHYLENE = 0.45
# memory: PVC; property sheets have 0.38 to 0.41.
_POISSON_PVC = 0.38


def moduli_of(compound: str) -> tuple[float, ...]:
    """Apparent moduli of a pipe's material at 73 F [Pa], one a time of `LOAD_TIMES`; nan for any other material.

    Polyethylene goes by the first digit of its code, its density. Between the two values of PVC the modulus falls
    in a straight line over the logarithm of time (ours: polyethylene stands up to a tenth under such a line).

    >>> [round(modulus / PSI) for modulus in moduli_of("PE4710")]
    [82000, 74000, 63000, 55000, 40000, 29000]
    """
    if compound in RIGID_PVC:
        decades = np.log(LOAD_TIMES)
        return tuple(float(each) * PSI for each in np.interp(decades, decades[[0, -1]], _PVC))
    return tuple(psi * PSI for psi in _POLYETHYLENE.get(compound[:3], (np.nan,) * len(LOAD_TIMES)))


def poisson_of(compound: str) -> float:
    """Poisson's ratio of a pipe's material; nan for one that is neither polyethylene nor PVC.

    >>> poisson_of("PE3608"), poisson_of("PVC 1120")
    (0.45, 0.38)
    """
    if compound in RIGID_PVC:
        return _POISSON_PVC
    return _POISSON_POLYETHYLENE if compound[:3] in _POLYETHYLENE else float("nan")


# memory: Handbook of PE Pipe, table B.1.2. Met in print: 0.82 at 90 F and 0.43 at 140 F, and 1 at 73 F by definition.
_POLYETHYLENE_WARMTH = np.array([30.0, 40.0, 50.0, 60.0, 73.0, 80.0, 90.0, 100.0, 110.0, 120.0, 130.0, 140.0])
_POLYETHYLENE_STIFFNESS = np.array([1.65, 1.49, 1.32, 1.18, 1.00, 0.93, 0.82, 0.73, 0.64, 0.58, 0.50, 0.43])

# memory: modulus of PVC pipe by temperature, from handbooks of PVC pipe; not met in print.
_PVC_WARMTH = np.array([73.0, 90.0, 100.0, 110.0, 120.0, 130.0, 140.0])
_PVC_STIFFNESS = np.array([1.00, 0.93, 0.88, 0.84, 0.79, 0.75, 0.70])


def polyethylene_stiffness(temperature: Array) -> Array:
    """Modulus of polyethylene over its modulus at 73 F.

    Parameters
    ----------
    temperature : [K] of the wall, valid 30 to 140 F (272.04 to 333.15 K)

    Returns
    -------
    [ratio], same shape; nan outside the valid range

    Source: Handbook of PE Pipe, chapter 3, table B.1.2 (memory; two of its values met in print), straight lines
    between rows.

    >>> round(float(polyethylene_stiffness(np.array([305.372]))[0]), 2)
    0.82
    """
    wall = Fahrenheit(temperature)
    stiffness = wall.along(_POLYETHYLENE_WARMTH, _POLYETHYLENE_STIFFNESS)
    return np.where(wall.beyond(_POLYETHYLENE_WARMTH[0]), stiffness, np.nan)


def pvc_stiffness(temperature: Array) -> Array:
    """Modulus of PVC over its modulus at 73 F.

    Parameters
    ----------
    temperature : [K] of the wall, up to 140 F (333.15 K)

    Returns
    -------
    [ratio], same shape; 1 below 73 F, nan above 140 F

    Source: handbooks of PVC pipe (memory), straight lines between rows. ours: 1 below 73 F, a little less than it is.

    >>> round(float(pvc_stiffness(np.array([305.372]))[0]), 2)
    0.93
    """
    return Fahrenheit(temperature).along(_PVC_WARMTH, _PVC_STIFFNESS)


def apparent_modulus(moduli: tuple[Array, ...], load_time: Array, stiffness: Array) -> Array:
    """Modulus that a plastic shows under a load that lasts.

    Parameters
    ----------
    moduli : [Pa] at 73 F, one a time of `LOAD_TIMES`
    load_time : [s] half an hour to 50 years
    stiffness : [ratio] modulus at the wall's temperature over that at 73 F

    Returns
    -------
    [Pa], broadcast shape; nan outside the range of times

    Source: Handbook of PE Pipe, chapter 3, table B.1.1, straight lines between rows over the logarithm of time. Its
    values are for a pull in one direction; a ring shows somewhat more, which is not counted on.

    >>> rows = tuple(np.array([each]) for each in moduli_of("PE4710"))
    >>> round(float(apparent_modulus(rows, np.array([SHORT_LOAD]), np.array([1.0]))[0]) / PSI)
    63000
    """
    inside = (load_time >= LOAD_TIMES[0]) & (load_time <= LOAD_TIMES[-1])
    decades, knots = np.log(load_time), np.log(LOAD_TIMES)
    # Each row's weight is 1 at its own time and 0 at the others'.
    total = np.interp(decades, knots, np.eye(len(LOAD_TIMES))[0]) * moduli[0]
    for row in range(1, len(LOAD_TIMES)):
        total = total + np.interp(decades, knots, np.eye(len(LOAD_TIMES))[row]) * moduli[row]
    return np.where(inside, total * stiffness, np.nan)


def ring_collapse_pressure(modulus: Array, poisson: Array, wall: Array, mean_diameter: Array) -> Array:
    """Pressure from outside at which a round, long, unsupported pipe folds in.

    Parameters
    ----------
    modulus : [Pa] for as long as the load lasts, at the wall's temperature
    poisson : [-] Poisson's ratio
    wall : [m] least thickness
    mean_diameter : [m] middle of the wall to middle of the wall

    Returns
    -------
    [Pa] outside over inside, broadcast shape

    Source: Levy's thin ring in plane strain, Buried Pipe Design, equation 3.14. Elastic; no soil, no water's support.

    >>> round(float(ring_collapse_pressure(29e6, 0.29, 0.375, 13.5)))
    1357
    """
    slender = wall / mean_diameter
    return 2.0 * modulus / (1.0 - poisson * poisson) * (slender * slender * slender)


def ovality_factor(ovality: Array) -> Array:
    """What is left of the pressure of collapse in a pipe that is not round.

    Parameters
    ----------
    ovality : [share] by which the largest diameter exceeds the mean, and the least falls short of it

    Returns
    -------
    [share], same shape

    Source: Handbook of PE Pipe, chapter 6, ovality compensation (memory).

    >>> round(float(ovality_factor(0.05)), 4)
    0.6398
    """
    squeezed = (1.0 - ovality) / ((1.0 + ovality) * (1.0 + ovality))
    return squeezed * squeezed * squeezed


def allowable_vacuum(collapse_pressure: Array, ovality: Array, safety: Array) -> Array:
    """Vacuum a pipe may be put under for as long as its modulus was taken for.

    Parameters
    ----------
    collapse_pressure : [Pa] of the round pipe
    ovality : [share] of the pipe as it lies
    safety : [ratio] collapse over allowed, 2 to 2.5

    Returns
    -------
    [Pa] outside over inside, broadcast shape

    Source: Handbook of PE Pipe, chapter 6, unconstrained buckling (memory); a pipe maker's sheet also asks 2.

    >>> round(float(allowable_vacuum(72.7, 0.03, 2.0)), 1)
    27.8
    """
    return ovality_factor(ovality) * collapse_pressure / safety


def combined_vacuum_use(
    standing_vacuum: Array, long_allowable: Array, running_vacuum: Array, short_allowable: Array
) -> Array:
    """Share of what the wall bears that a standing vacuum and the losses on top of it use up.

    Parameters
    ----------
    standing_vacuum : [Pa] that the valves hold while the pump rests; negative is pressure
    long_allowable : [Pa] for years
    running_vacuum : [Pa] that running adds to it
    short_allowable : [Pa] for a run

    Returns
    -------
    [ratio], broadcast shape; above 1 the margin of safety is used up, which is not yet collapse

    Source: ours: both shares of one wall's bearing add up, as loads of unlike length do in a sum of damages. Where
    the line stands under pressure, running must first take that away.

    >>> round(float(combined_vacuum_use(np.array([6.5]), 54.3, 3.0, 118.0)[0]), 3)
    0.145
    """
    held = np.maximum(standing_vacuum, 0.0)
    added = np.maximum(running_vacuum + np.minimum(standing_vacuum, 0.0), 0.0)
    return held / long_allowable + added / short_allowable
