"""Quantities as people write them, and as the trade wants them shown.

Inside, every number is SI; a unit exists as a word only here. `read` and `read_amount` take text in, `show`
gives text out, and nothing else in the project does either. A spelling that reads two ways is refused with
both readings.
"""

from lakewright.units.kinds import KINDS, Kind
from lakewright.units.reading import read, read_amount
from lakewright.units.showing import EVERY_DIGIT, figure, show, show_apart, unit_of
from lakewright.units.tables import NOUNS, OVER, TWO_READINGS, UNITS, Amount

__all__ = [
    "EVERY_DIGIT",
    "KINDS",
    "NOUNS",
    "OVER",
    "TWO_READINGS",
    "UNITS",
    "Amount",
    "Kind",
    "figure",
    "read",
    "read_amount",
    "show",
    "show_apart",
    "unit_of",
]
