"""Inch-pound units in SI. Source: NIST SP 811 (2008), appendix B.8; exact unless a comment says otherwise."""

from __future__ import annotations

import numpy as np

from lakewright.physics.types import Array

INCH = 0.0254
FOOT = 0.3048
POUND = 0.45359237
PSI = POUND * 9.80665 / INCH**2
GALLON = 231.0 * INCH**3
GPM = GALLON / 60.0
INCH_OF_MERCURY = 3386.389  # conventional; seven digits in the source
CENTISTOKE = 1e-6
POUND_PER_CUBIC_FOOT = POUND / FOOT**3


def fahrenheit(degrees: float) -> Array:
    """A temperature in K."""
    return np.array([(degrees + 459.67) / 1.8])


def celsius(degrees: float) -> Array:
    """A temperature in K."""
    return np.array([degrees + 273.15])
