"""Pressure that a column of water makes when it is stopped, by closed forms."""

from __future__ import annotations

import numpy as np

from lakewright.physics.types import GRAVITY, Array

WATER_MODULUS = 2.19e9
"""Bulk modulus of water at 20 C [Pa]. Source: a page on water hammer, 318 000 psi; tables of pipe take 300 000."""

# Modulus [Pa] for a wave's passage, Poisson's ratio. Source: data of PVC pipe, 400 000 psi; memory: the ratio.
PVC = (2.76e9, 0.38)
# memory: 150 000 psi and the ratio; a handbook of PE pipe takes 11.3 psi for 1 ft/s at DR 17, which is that modulus.
POLYETHYLENE = (1.03e9, 0.45)


def anchored_factor(bore: Array, wall: Array, poisson: Array) -> Array:
    """How much a pipe's wall gives to a wave, over a thin ring of the same wall, where the pipe cannot grow longer.

    Parameters
    ----------
    bore : [m]
    wall : [m]
    poisson : [-] ratio of its material

    Returns
    -------
    [-], broadcast shape

    Source: Wylie and Streeter, Fluid Transients in Systems (1993) (memory): (2 e / D)(1 + nu) + D (1 - nu^2) / (D + e).

    >>> round(float(anchored_factor(0.0525, 0.00391, 0.38)), 3)
    1.002
    """
    return 2.0 * wall / bore * (1.0 + poisson) + bore / (bore + wall) * (1.0 - poisson * poisson)


def wave_speed(water_modulus: Array, modulus: Array, bore: Array, wall: Array, factor: Array, density: Array) -> Array:
    """Speed of a wave of pressure in a full pipe.

    Parameters
    ----------
    water_modulus : [Pa] bulk modulus of water, such as `WATER_MODULUS`
    modulus : [Pa] of the wall, for a moment's load
    bore : [m]
    wall : [m]
    factor : [-] 1 for a thin ring, or `anchored_factor`
    density : [kg/m3]

    Returns
    -------
    [m/s], broadcast shape

    Source: trade article "PVC and HDPE - similar yet different", equation 3; Martin, Waterhammer potential in pumps
    and systems: a = sqrt(K / rho) / sqrt(1 + (K / E)(D / e) c).

    >>> round(float(wave_speed(2.19e9, 1.03e9, 0.0493, 0.00548, 1.0, 999.1)))
    330
    """
    give = water_modulus / modulus * (bore / wall) * factor
    return np.sqrt(water_modulus / density) / np.sqrt(1.0 + give)


def sudden_rise(wave_speed: Array, velocity: Array, density: Array) -> Array:
    """Pressure made where water is stopped at once.

    Parameters
    ----------
    wave_speed : [m/s]
    velocity : [m/s] that is stopped
    density : [kg/m3]

    Returns
    -------
    [Pa], broadcast shape

    Source: Joukowsky (1898), as "PVC and HDPE - similar yet different" has it, equation 4: rho a V.

    >>> round(float(sudden_rise(323.0, 1.0, 1000.0)))
    323000
    """
    return density * wave_speed * velocity


def return_time(length: Array, wave_speed: Array) -> Array:
    """Time a wave takes to the far end and back: what is slower than this is slow.

    Parameters
    ----------
    length : [m]
    wave_speed : [m/s]

    Returns
    -------
    [s], broadcast shape

    Source: technical manual 5-813-9, 2 L / a.

    >>> round(float(return_time(3400.0 * 0.3048, 2690.0 * 0.3048)), 2)
    2.53
    """
    return 2.0 * length / wave_speed


def stopping_rise(wave_speed: Array, length: Array, velocity: Array, stop_time: Array, density: Array) -> Array:
    """Pressure made where water is stopped evenly over some time.

    Parameters
    ----------
    wave_speed : [m/s]
    length : [m] of the line
    velocity : [m/s] that is stopped
    stop_time : [s], 0 for at once

    density : [kg/m3]

    Returns
    -------
    [Pa], broadcast shape: Joukowsky's up to one return of the wave, 2 rho L V / t beyond

    Source: Michaud (1878): rho a V (2 L / a) / t. The trade's 0.07 L V / t psi is another law, 2.6 times as much.

    >>> round(float(stopping_rise(300.0, 30.0, 1.0, 2.0, 1000.0)))
    30000
    """
    back = return_time(length, wave_speed)
    return sudden_rise(wave_speed, velocity, density) * back / np.maximum(back, stop_time)


def column_stop_time(momentum: Array, head: Array) -> Array:
    """Time in which a column comes to rest when its pump stops driving it and a head stands against it.

    Parameters
    ----------
    momentum : [m2/s] sum over the pipes of length times velocity
    head : [m] from the lake's surface to the tank's pressure

    Returns
    -------
    [s], broadcast shape; infinite where no head stands against it

    Source: Newton's second law for a rigid column, V L / (g H). ours: the pump's own spin, which helps, is left out.

    >>> round(float(column_stop_time(60.0, 40.0)), 3)
    0.153
    """
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.where(head > 0.0, momentum / (GRAVITY * head), np.where(np.isnan(head), np.nan, np.inf))
