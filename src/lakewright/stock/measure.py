"""The trade's units in which the tables are written, in SI."""

from __future__ import annotations

# Source: NIST Special Publication 811 (2008), appendix B.8, for all that follow; exact unless said.
INCH = 0.0254
FOOT = 0.3048
MILLIMETRE = 0.001
GALLON = 231.0 * INCH**3
GALLON_PER_MINUTE = GALLON / 60.0
POUND = 0.45359237
POUND_FORCE = POUND * 9.80665
PSI = POUND_FORCE / INCH**2
HORSEPOWER = 550.0 * FOOT * POUND_FORCE
INCH_OF_MERCURY = 3386.389  # conventional mercury, to the seven digits printed
