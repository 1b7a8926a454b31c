"""Fresh water as a cold lake holds it: density, viscosity, boiling pressure."""

from __future__ import annotations

import numpy as np

from lakewright.physics.types import Array

ICE_POINT = 273.15
"""0 C [K]. Source: ITS-90, definition of the Celsius temperature."""


def density(temperature: Array) -> Array:
    """Density of air-free water at one atmosphere.

    Parameters
    ----------
    temperature : [K], valid 273.15 to 313.15

    Returns
    -------
    [kg/m3], same shape; nan outside the valid range

    Source: Tanaka, Girard, Davis, Peuto and Bignell, Metrologia 38 (2001) 301, equation 1 and table 1.

    >>> round(float(density(np.array([277.133]))[0]), 3)
    999.975
    """
    t = temperature - ICE_POINT
    inside = (t >= 0.0) & (t <= 40.0)
    rho = 999.974950 * (1.0 - (t - 3.983035) * (t - 3.983035) * (t + 301.797) / (522528.9 * (t + 69.34881)))
    return np.where(inside, rho, np.nan)


def dynamic_viscosity(temperature: Array) -> Array:
    """Dynamic viscosity of water at 0.1 MPa.

    Parameters
    ----------
    temperature : [K], valid 253.15 to 383.15

    Returns
    -------
    [Pa s], same shape; nan outside the valid range

    Source: IAPWS SR6-08(2011), equation 7 and table 4 (liquid water at 0.1 MPa).

    >>> round(float(dynamic_viscosity(np.array([298.15]))[0]) * 1e6, 1)
    890.0
    """
    inside = (temperature >= 253.15) & (temperature <= 383.15)
    t = np.where(inside, temperature, np.nan) / 300.0
    return 1e-6 * (280.68 * t**-1.9 + 511.45 * t**-7.7 + 61.131 * t**-19.6 + 0.45903 * t**-40.0)


def vapour_pressure(temperature: Array) -> Array:
    """Absolute pressure at which still water begins to boil.

    Parameters
    ----------
    temperature : [K], valid 273.15 to 647.096

    Returns
    -------
    [Pa], same shape; nan outside the valid range

    Source: IAPWS R7-97(2012), region 4, equation 30 with table 34. Checked against its table 35.

    >>> round(float(vapour_pressure(np.array([300.0]))[0]), 4)
    3536.5894
    """
    inside = (temperature >= 273.15) & (temperature <= 647.096)
    t = np.where(inside, temperature, np.nan)
    theta = t - 0.23855557567849 / (t - 0.65017534844798e3)
    a = theta * theta + 0.11670521452767e4 * theta - 0.72421316703206e6
    b = -0.17073846940092e2 * theta * theta + 0.12020824702470e5 * theta - 0.32325550322333e7
    c = 0.14915108613530e2 * theta * theta - 0.48232657361591e4 * theta + 0.40511340542057e6
    root = 2.0 * c / (-b + np.sqrt(b * b - 4.0 * a * c))
    square = root * root
    return 1e6 * square * square
