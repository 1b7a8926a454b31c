"""The ejector of a jet pump: nozzle, throat and diffuser in one dimension, and the most it draws before water boils."""

from __future__ import annotations

import numpy as np

from lakewright.physics.types import Array


def jet_pressure(motive_flow: Array, nozzle_area: Array, density: Array) -> Array:
    """Velocity pressure of the jet that leaves the nozzle.

    Parameters
    ----------
    motive_flow : [m3/s] through the nozzle
    nozzle_area : [m2]
    density : [kg/m3] of the water that drives

    Returns
    -------
    [Pa], broadcast shape

    Source: pump handbook, 4th edition (2007), as an open library restates it: Z = rho V^2 / 2.

    >>> round(float(jet_pressure(0.010, 3.9348e-4, 998.0)) / 1000.0, 1)
    322.3
    """
    speed = motive_flow / nozzle_area
    return 0.5 * density * speed * speed


def nozzle_drop(jet: Array, nozzle_loss: Array) -> Array:
    """Pressure before the nozzle over that where the throat begins.

    Parameters
    ----------
    jet : [Pa] as `jet_pressure` gives it
    nozzle_loss : [-] coefficient on the jet's velocity

    Returns
    -------
    [Pa], broadcast shape

    Source: as `jet_pressure`; Z (1 + Kn).

    >>> float(nozzle_drop(100.0, 0.04))
    104.0
    """
    return jet * (1.0 + nozzle_loss)


def entry_drop(jet: Array, flow_ratio: Array, area_ratio: Array, entry_loss: Array, density_ratio: Array) -> Array:
    """Pressure of the water drawn, before the ejector, over that where the throat begins.

    Parameters
    ----------
    jet : [Pa] as `jet_pressure` gives it
    flow_ratio : [-] flow drawn over flow that drives
    area_ratio : [-] area of the nozzle over that of the throat, under 1
    entry_loss : [-] coefficient on the drawn water's velocity beside the jet
    density_ratio : [-] density of the water drawn over that of the water that drives

    Returns
    -------
    [Pa], broadcast shape

    Source: as `jet_pressure`; Z C (1 + Ks) [M R / (1 - R)]^2.

    >>> round(float(entry_drop(100.0, 1.0, 0.2, 0.0, 1.0)), 2)
    6.25
    """
    beside = flow_ratio * area_ratio / (1.0 - area_ratio)
    return jet * density_ratio * (1.0 + entry_loss) * (beside * beside)


def diffuser_rise(jet: Array, flow_ratio: Array, area_ratio: Array, mixing_loss: Array, density_ratio: Array) -> Array:
    """Pressure behind the diffuser over that where the throat begins.

    Parameters
    ----------
    jet : [Pa] as `jet_pressure` gives it
    flow_ratio : [-] flow drawn over flow that drives
    area_ratio : [-] area of the nozzle over that of the throat, under 1
    mixing_loss : [-] coefficients of throat and diffuser on the mixed water's velocity, summed
    density_ratio : [-] density of the water drawn over that of the water that drives

    Returns
    -------
    [Pa] total pressure, broadcast shape

    Source: as `jet_pressure`; Z {2 R + 2 C M^2 R^2 / (1 - R) - R^2 (1 + C M) (1 + M) (1 + Kt + Kd)}.

    >>> round(float(diffuser_rise(100.0, 0.0, 0.2, 0.3, 1.0)), 2)
    34.8
    """
    m, r = flow_ratio, area_ratio
    pushed = 2.0 * r + 2.0 * density_ratio * (m * r) * (m * r) / (1.0 - r)
    return jet * (pushed - r * r * (1.0 + density_ratio * m) * (1.0 + m) * (1.0 + mixing_loss))


def most_drawn(
    annulus: Array, suction_pressure: Array, vapour_pressure: Array, density: Array, cavitation: Array
) -> Array:
    """The most an ejector draws: more, and the water beside the jet boils, whatever drives it.

    Parameters
    ----------
    annulus : [m2] of the throat beside the jet
    suction_pressure : [Pa] absolute, before the ejector
    vapour_pressure : [Pa] absolute
    density : [kg/m3]
    cavitation : [-] pressure left over boiling, over the velocity pressure beside the jet, at which it boils

    Returns
    -------
    [m3/s], broadcast shape; 0 where the water boils before it moves

    Source: Cunningham, Hansen and Na, J. Basic Eng. 92 (1970) 483 (memory): (P2 - Pv) = sigma rho V3^2 / 2.

    >>> round(float(most_drawn(56.37e-6, 80.0e3, 1.1e3, 998.0, 1.35)) / 6.30902e-5, 2)
    9.67
    """
    over = np.maximum(suction_pressure - vapour_pressure, 0.0)
    return annulus * np.sqrt(2.0 * over / (density * cavitation))
