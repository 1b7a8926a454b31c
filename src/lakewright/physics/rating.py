"""The pressure a plastic pipe may hold from inside, for years: by wall, by warmth, by its ends."""

from __future__ import annotations

import numpy as np

from lakewright.physics.collapse import PSI, RIGID_PVC
from lakewright.physics.types import Array
from lakewright.physics.warmth import Fahrenheit

# Source: Buried Pipe Design, page 204: PVC 1120 has 2000 psi, PE3406 630. memory: the last two digits of the code of
# polyethylene are its design stress in hundreds of psi, where 06 stands for 630.
_PVC = 2000.0
_POLYETHYLENE = {"06": 630.0, "08": 800.0, "10": 1000.0}


def design_stress_of(compound: str) -> float:
    """Hydrostatic design stress of a pipe's material for water at 73 F [Pa]; nan for one that is not listed.

    >>> [round(design_stress_of(each) / PSI) for each in ("PVC 1120", "PE4710", "PE3608", "PE2406")]
    [2000, 1000, 800, 630]
    """
    if compound in RIGID_PVC:
        return _PVC * PSI
    known = compound.startswith("PE") and len(compound) == len("PE4710")
    return _POLYETHYLENE.get(compound[-2:] if known else "", float("nan")) * PSI


def rating_by_outside_ratio(design_stress: Array, outside_ratio: Array) -> Array:
    """Pressure rating of a pipe that is made to its outside diameter.

    Parameters
    ----------
    design_stress : [Pa]
    outside_ratio : [-] outside diameter over least wall: DR, SDR

    Returns
    -------
    [Pa] gauge, broadcast shape; of plain ends, at 73 F

    Source: the ISO equation, P = 2 S / (DR - 1), as "PVC and HDPE - similar yet different", equation 1, has it.

    >>> rating_by_outside_ratio(1000.0, 11.0)
    200.0
    """
    return 2.0 * design_stress / (outside_ratio - 1.0)


def rating_by_inside_ratio(design_stress: Array, inside_ratio: Array) -> Array:
    """Pressure rating of a pipe that is made to its inside diameter.

    Parameters
    ----------
    design_stress : [Pa]
    inside_ratio : [-] average inside diameter over least wall: SIDR

    Returns
    -------
    [Pa] gauge, broadcast shape; at 73 F

    Source: as `rating_by_outside_ratio`, whose mean diameter over wall is SIDR + 1 here.

    >>> rating_by_inside_ratio(1000.0, 9.0)
    200.0
    """
    return 2.0 * design_stress / (inside_ratio + 1.0)


# Source: two pages of makers of plastic fittings, temperature correction: straight between these, for one of them also
# prints 0.45 at 115 F and 0.35 at 125 F. A maker of pipe has 0.88 at 80 F, 0.51 at 110 F and 0.31 at 130 F.
_PVC_WARMTH = np.array([73.0, 80.0, 90.0, 100.0, 110.0, 120.0, 130.0, 140.0])
_PVC_SHARES = np.array([1.00, 0.90, 0.75, 0.62, 0.50, 0.40, 0.30, 0.22])

THREADED_SHARE = 0.5
"""Share of its rating that a threaded PVC pipe keeps. Source: a pipe maker's page on temperature derating."""


def pvc_rating_share(temperature: Array) -> Array:
    """Share of its rating at 73 F that PVC keeps when warmer.

    Parameters
    ----------
    temperature : [K] of the wall, up to 140 F (333.15 K)

    Returns
    -------
    [share], same shape; 1 up to 73 F, nan above 140 F, where PVC is not to hold pressure

    Source: two pages of makers of plastic fittings, temperature correction factors, straight lines between rows.

    >>> round(float(pvc_rating_share(np.array([316.483]))[0]), 3)
    0.5
    """
    return Fahrenheit(temperature).along(_PVC_WARMTH, _PVC_SHARES)


def polyethylene_rating_share(temperature: Array) -> Array:
    """Share of its rating at 73 F that polyethylene keeps when warmer.

    Parameters
    ----------
    temperature : [K] of the wall, up to 100 F (310.93 K)

    Returns
    -------
    [share], same shape; nan above 100 F, where the pipe's maker must be asked

    Source: AWWA manual on PE pipe (2006), table 4-6: up to 80 F 1.0, 81 to 90 F 0.9, 91 to 100 F 0.8; steps, no line.

    >>> round(float(polyethylene_rating_share(np.array([303.15]))[0]), 1)
    0.9
    """
    wall = Fahrenheit(temperature)
    warm = np.where(wall.up_to(90.0), 0.9, np.where(wall.up_to(100.0), 0.8, np.nan))
    return np.where(wall.up_to(80.0), 1.0, warm)


def thread_rating_share(temperature: Array) -> Array:
    """Share of its rating that a PVC pipe of schedule 80 keeps once it is threaded.

    Parameters
    ----------
    temperature : [K] of the joint, up to 110 F (316.48 K)

    Returns
    -------
    [share], same shape; nan above 110 F, where no PVC is to be threaded

    Source: a pipe maker's page on temperature derating; schedule 40 is not to be threaded at all.

    >>> float(thread_rating_share(np.array([293.15]))[0])
    0.5
    """
    return np.where(Fahrenheit(temperature).up_to(110.0), THREADED_SHARE, np.nan)


def allowed_pressure(rating: Array, warmth_share: Array, joint_share: Array) -> Array:
    """Pressure a pipe may hold for years, as warm as it gets, with the ends it has.

    Parameters
    ----------
    rating : [Pa] gauge, at 73 F with plain ends
    warmth_share : [share] of the rating left by the wall's temperature
    joint_share : [share] of the rating left by the joint: 1 for plain ends, less for threads

    Returns
    -------
    [Pa] gauge, broadcast shape

    Source: PR = 2 HDS f_T f_E / (DR - 1), a pipe maker's note on rating PE3408, equation 1, whose factors multiply.

    >>> allowed_pressure(230.0, 0.40, 1.0)
    92.0
    """
    return rating * warmth_share * joint_share


def rating_use(inside_pressure: Array, allowed: Array) -> Array:
    """Share of the allowed pressure that the water in a pipe uses up.

    Parameters
    ----------
    inside_pressure : [Pa] gauge; negative is vacuum
    allowed : [Pa] gauge, as `allowed_pressure` gives it

    Returns
    -------
    [ratio], broadcast shape; 0 under vacuum, above 1 past what is allowed

    Source: definition.

    >>> float(rating_use(np.array([60.0]), 92.0)[0]) < 1.0
    True
    """
    return np.maximum(inside_pressure, 0.0) / allowed
