"""The trade's units in which the tables are written, in SI."""

from __future__ import annotations

from lakewright.units.tables import FOOT, GALLON, INCH, MERCURY_COLUMN, POUND, POUND_FORCE

__all__ = [
    "FOOT",
    "GALLON",
    "GALLON_PER_MINUTE",
    "HORSEPOWER",
    "INCH",
    "INCH_OF_MERCURY",
    "MILLIMETRE",
    "POUND",
    "PSI",
]

# Source: NIST Special Publication 811 (2008), appendix B.8, for all that follow; exact.
MILLIMETRE = 0.001
GALLON_PER_MINUTE = GALLON / 60.0
PSI = POUND_FORCE / INCH**2
HORSEPOWER = 550.0 * FOOT * POUND_FORCE
INCH_OF_MERCURY = INCH * MERCURY_COLUMN
