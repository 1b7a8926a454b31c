"""Quantities in text: read as another library and the print have it, refused in words, shown, read back."""

from __future__ import annotations

import math
from pathlib import Path

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lakewright import units
from lakewright.errors import UnitError
from lakewright.units.page import reference
from lakewright.units.showing import shown_unit
from tests.published import assert_printed, published

PAGE = Path(__file__).parents[1] / "docs" / "reference" / "units.md"

# Numbers and how they may be written.

WRITTEN = [
    ("12 ft", 12.0),
    ("12ft", 12.0),
    ("12 FT", 12.0),
    ("12 Feet", 12.0),
    ("12 ft.", 12.0),
    ("12.5 ft", 12.5),
    (".5 ft", 0.5),
    ("12. ft", 12.0),
    ("12'", 12.0),
    ("12' 6\"", 12.5),
    ("12'6\"", 12.5),
    ("12'-6\"", 12.5),
    ("12 ft 6 in", 12.5),
    ("12 ft, 6 in.", 12.5),
    ("12 feet 6 inches", 12.5),
    ("12 ft 6-1/2 in", 12.0 + 6.5 / 12.0),
    ("12'-6 1/2\"", 12.0 + 6.5 / 12.0),
    ("-2 ft 6 in", -2.5),
    ("-0 ft 6 in", -0.5),
    ("12-1/2 in", 12.5 / 12.0),
    ("12 1/2 in", 12.5 / 12.0),
    ("12 - 1/2 in", 12.5 / 12.0),
    ("1 1/2 in", 0.125),
    ("3/4 in", 0.0625),
    ("-3/4 in", -0.0625),
    ("-2.5 ft", -2.5),
    ("- 2.5 ft", -2.5),
    ("+4 ft", 4.0),
    ("3.048e-1 m", 1.0),
    ("3048e-4 m", 1.0),
    ("3.048E-1 m", 1.0),
    ("1,340.5 ft", 1340.5),
    ("12,345,678 ft", 12345678.0),
    ("  12   ft  ", 12.0),
    ("12\u00a0ft", 12.0),
    ("12\u202fft", 12.0),
    ("\u22122\u00bd ft", -2.5),
    ("12\u2032 6\u2033", 12.5),
    ("12\u2019 6\u201d", 12.5),
    ("12 ft 6\u00bd in", 12.0 + 6.5 / 12.0),
    ("1\u20442 ft", 0.5),
    ("\u00be ft", 0.75),
]


@pytest.mark.parametrize("text, feet", WRITTEN)
def test_a_number_may_be_written_in_many_ways(text: str, feet: float) -> None:
    assert units.read(text, "length") == pytest.approx(feet * 0.3048, rel=1e-14)


OTHER_FORMS = [
    ("1 h 30 min", "time", 5400.0),
    ("2 d 6 h", "time", 54.0 * 3600.0),
    ("2 min 30 s", "time", 150.0),
    ("1/4 in/ft", "slope", 1.0 / 48.0),
    ("1/4 in per ft", "slope", 1.0 / 48.0),
    ('1/4"/ft', "slope", 1.0 / 48.0),
    ("1 in/100 ft", "slope", 1.0 / 1200.0),
    ("50 %", "share", 0.5),
    ("50%", "share", 0.5),
    ("0.5", "share", 0.5),
    ("1/2", "share", 0.5),
    ("3", "count", 3.0),
    ("3.5", "count", 3.5),
    ("68 F", "temperature", 293.15),
    ("68 \u00b0F", "temperature", 293.15),
    ("68\u00b0F", "temperature", 293.15),
    ("68 deg F", "temperature", 293.15),
    ("68 degrees Fahrenheit", "temperature", 293.15),
    ("20 c", "temperature", 293.15),
    ("293.15 K", "temperature", 293.15),
    ("9 F", "temperature_difference", 5.0),
    ("1800 F days", "degree_days", 8.64e7),
    ("1800 F-days", "degree_days", 8.64e7),
    ("1800 \u00b0F-days", "degree_days", 8.64e7),
    ("1000 \u00b0C\u00b7d", "degree_days", 8.64e7),
    ("1000 C days", "degree_days", 8.64e7),
    ("30 psi", "pressure", 206842.7),
    ("30 PSIG", "pressure", 206842.7),
    ("200 kPa", "pressure", 2.0e5),
    ("200 kPa gauge", "pressure", 2.0e5),
    ("200 kPa (g)", "pressure", 2.0e5),
    ("2 barg", "pressure", 2.0e5),
    ("10 m of water", "pressure", 98066.5),
    ("20 inHg vacuum", "pressure", -67727.77),
    ("20 in. Hg vac", "pressure", -67727.77),
    ("50 kPa vacuum", "pressure", -5.0e4),
    ("20 inHg", "pressure_difference", 67727.77),
    ("20 inHg vacuum", "pressure_difference", 67727.77),
    ("14.7 psia", "pressure_absolute", 101352.93),
    ("98 kPa abs", "pressure_absolute", 9.8e4),
    ("98 kPa", "pressure_absolute", 9.8e4),
    ("980 hPa", "pressure_absolute", 9.8e4),
    ("1 bar a", "pressure_absolute", 1.0e5),
    ("1 atm", "pressure_absolute", 101325.0),
    ("20 inHg abs", "pressure_absolute", 67727.77),
    ("150 ft", "head", 45.72),
    ("45 m of water", "head", 45.0),
    ("45 m head", "head", 45.0),
    ("10 ft H2O", "head", 3.048),
    ("10 psi", "head", 68947.57 / (999.0 * 9.80665)),
    ("100 kPa", "head", 1.0e5 / (999.0 * 9.80665)),
    ("40 mJ/cm2", "dose", 400.0),
    ("40 mJ/cm\u00b2", "dose", 400.0),
    ("40 mW-s/cm2", "dose", 400.0),
    ("400 J/m^2", "dose", 400.0),
    ("2 sq ft", "area", 0.18580608),
    ("2 sq. ft.", "area", 0.18580608),
    ("2 Square Feet", "area", 0.18580608),
    ("2 ft**2", "area", 0.18580608),
    ("2 m\u00b2", "area", 2.0),
    ("2 square metres", "area", 2.0),
    ("2 cu yd", "volume", 2.0 * 0.9144**3),
    ("2 cubic metres", "volume", 2.0),
    ("2 acre-ft", "volume", 2466.963675),
    ("8 gal/min", "flow", 5.0472157e-4),
    ("8 gallons per minute", "flow", 5.0472157e-4),
    ("8 US gpm", "flow", 5.0472157e-4),
    ("8 U.S. gal./min.", "flow", 5.0472157e-4),
    ("8 imp gpm", "flow", 6.0614533e-4),
    ("30 L/min", "flow", 5.0e-4),
    ("1.8 m\u00b3/h", "flow", 5.0e-4),
    ("2 mg/L", "concentration", 0.002),
    ("2 mg/l", "concentration", 0.002),
    ("2 ppm", "concentration", 0.002),
    ("2 \u00b5g/L", "concentration", 2.0e-6),
    ("20 per 100 mL", "per_volume", 2.0e5),
    ("20/100 mL", "per_volume", 2.0e5),
    ("20 CFU/100 mL", "per_volume", 2.0e5),
    ("20 cells/mL", "per_volume", 2.0e7),
    ("15 per hour", "frequency", 15.0 / 3600.0),
    ("15 starts per hour", "frequency", 15.0 / 3600.0),
    ("15 starts an hour", "frequency", 15.0 / 3600.0),
    ("60 Hz", "frequency", 60.0),
    ("3450 rpm", "speed_of_rotation", 361.2831551628262),
    ("0.4 per m", "per_length", 0.4),
    ("0.4 1/m", "per_length", 0.4),
    ("4 1/m", "per_length", 4.0),
    ("1 in/day", "volume_per_time_per_area", 0.0254 / 86400.0),
    ("5 L/s/m2", "volume_per_time_per_area", 0.005),
    ("5 gpm per sq ft", "volume_per_time_per_area", 0.0033954861),
    ("1.6 ohm/1000 ft", "resistance_per_length", 1.6 / 304.8),
    ("1.6 \u03a9/km", "resistance_per_length", 0.0016),
    ("5 lb/100 ft", "mass_per_length", 5.0 * 0.45359237 / 30.48),
    ("235\u00b0", "angle", math.radians(235.0)),
    ("$12.50", "money", 1250.0),
    ("-$12.50", "money", -1250.0),
    ("$-12.50", "money", -1250.0),
    ("12.50 $", "money", 1250.0),
    ("12.50 dollars", "money", 1250.0),
    ("75 cents", "money", 75.0),
    ("$1,340", "money", 134000.0),
    ("$1,340.25", "money", 134025.0),
    ("$0.1", "money", 10.0),
    ("$1.20/ft", "money_per_length", 1.2 / 0.3048),
    ("120 $/100 ft", "money_per_length", 1.2 / 0.3048),
    ("$36 per hour", "money_per_time", 0.01),
]


@pytest.mark.parametrize("text, dimension, value", OTHER_FORMS)
def test_each_dimension_has_its_forms(text: str, dimension: str, value: float) -> None:
    # The values are written here to seven digits or more.
    assert units.read(text, dimension) == pytest.approx(value, rel=1e-7)


def test_nothing_below_zero_is_plain_zero() -> None:
    assert math.copysign(1.0, units.read("-0 ft", "length")) == 1.0


# Against another library.

PINT = pint.UnitRegistry()
SI_OF = {
    "length": "m",
    "area": "m**2",
    "volume": "m**3",
    "mass": "kg",
    "time": "s",
    "speed": "m/s",
    "flow": "m**3/s",
    "pressure_difference": "Pa",
    "temperature_difference": "delta_degC",
    "power": "W",
    "energy": "J",
    "angle": "rad",
    "density": "kg/m**3",
    "voltage": "V",
    "current": "A",
    "resistance": "ohm",
    "speed_of_rotation": "rad/s",
    "strength": "Pa",
    "force": "N",
    "frequency": "Hz",
}
# What the other library reads otherwise, or not at all as one word.
DIFFERENT = {
    ("area", "ac|acre|acres"): "there of the survey foot, a millionth off",
    ("volume", "acre ft"): "there of the survey foot, a millionth off",
    ("volume", "acre in"): "there of the survey foot, a millionth off",
    ("time", "yr|yrs|year|years"): "there of 365.25 days",
    ("speed", "kn|kt|kts"): "there kilonewton and kilotonne",
    ("pressure_difference", "inHg|mmHg|torr"): "there to fewer digits: see the printed table",
    ("pressure_difference", "ft|inH2O"): "there of warm water: see the printed table",
    ("frequency", "cps|cycles/s"): "there in radians",
    ("speed_of_rotation", "r/min"): "there r is the roentgen",
    ("force", "lb|lbs|pound|pounds"): "there a mass",
    ("temperature_difference", "F|C"): "there farad and coulomb",
    ("volume", "cc|US gal"): "",
    ("length", "'"): "",
}
SKIPPED = {(dimension, each) for (dimension, spellings) in DIFFERENT for each in spellings.split("|")}


def pairs_known_to_pint() -> list[tuple[str, str]]:
    found = []
    for dimension, si in SI_OF.items():
        for unit in units.UNITS[dimension]:
            for spelling in unit.spellings.split("|"):
                if (dimension, spelling) in SKIPPED or not spelling.replace("/", "").isalpha():
                    continue
                try:
                    compatible = PINT.Unit(spelling).is_compatible_with(si)
                except (pint.UndefinedUnitError, AssertionError, ValueError):
                    continue
                if compatible:
                    found.append((dimension, spelling))
    return found


COMPOUND_WITH_PINT = [
    ("gal/min", "flow", "gallon/minute"),
    ("imp gal/d", "flow", "imperial_gallon/day"),
    ("imp gpm", "flow", "imperial_gallon/minute"),
    ("gpm", "flow", "gallon/minute"),
    ("gph", "flow", "gallon/hour"),
    ("gpd", "flow", "gallon/day"),
    ("cfs", "flow", "foot**3/second"),
    ("cfm", "flow", "foot**3/minute"),
    ("lpm", "flow", "liter/minute"),
    ("m3/h", "flow", "meter**3/hour"),
    ("in2", "area", "inch**2"),
    ("sq mi", "area", "mile**2"),
    ("cu in", "volume", "inch**3"),
    ("fl oz", "volume", "fluid_ounce"),
    ("imp gal", "volume", "imperial_gallon"),
    ("ft/min", "speed", "foot/minute"),
    ("fpm", "speed", "foot/minute"),
    ("km/h", "speed", "kilometer/hour"),
    ("kn", "speed", "knot"),
    ("lb/ft3", "density", "pound/foot**3"),
    ("g/cm3", "density", "gram/centimeter**3"),
    ("ohm/1000 ft", "resistance_per_length", "ohm/(1000*foot)"),
    ("lb/ft", "mass_per_length", "pound/foot"),
    ("ug/L", "concentration", "microgram/liter"),
    ("gpg", "concentration", "grain/gallon"),
    ("mJ/cm2", "dose", "millijoule/centimeter**2"),
    ("in/day", "volume_per_time_per_area", "inch/day"),
    ("gpm/ft2", "volume_per_time_per_area", "gallon/minute/foot**2"),
    ("psf", "strength", "force_pound/foot**2"),
    ("lbf", "force", "force_pound"),
    ("ft of water", "pressure_difference", "foot*1000*kilogram/meter**3*standard_gravity"),
    ("per ft", "per_length", "1/foot"),
    ("per day", "frequency", "1/day"),
    ("rpm", "speed_of_rotation", "2*pi*radian/minute"),
]


@pytest.mark.parametrize("dimension, spelling", pairs_known_to_pint())
def test_spellings_mean_what_another_library_says(dimension: str, spelling: str) -> None:
    theirs = PINT.Quantity(1.0, spelling).to(SI_OF[dimension]).magnitude
    assert units.read(f"1 {spelling}", dimension) == pytest.approx(theirs, rel=1e-12)


@pytest.mark.parametrize("spelling, dimension, expression", COMPOUND_WITH_PINT)
def test_compounds_mean_what_another_library_says(spelling: str, dimension: str, expression: str) -> None:
    theirs = PINT.Quantity(expression).to_base_units().magnitude
    assert units.read(f"1 {spelling}", dimension) == pytest.approx(theirs, rel=1e-12)


def test_another_library_knows_most_single_words() -> None:
    assert len(pairs_known_to_pint()) >= 140


@pytest.mark.parametrize("text, theirs", [("68 F", (68.0, "degF")), ("-40 F", (-40.0, "degF")), ("4 C", (4.0, "degC"))])
def test_temperatures_mean_what_another_library_says(text: str, theirs: tuple[float, str]) -> None:
    assert units.read(text, "temperature") == pytest.approx(PINT.Quantity(*theirs).to("K").magnitude, rel=1e-14)


# Against the print.

# Source: NIST SP 811 (2008), appendix B.8, digits as another text restates them.
RESTATED = [
    ("1 in", "length", "2.54e-2"),
    ("1 ft", "length", "3.048e-1"),
    ("1 yd", "length", "9.144e-1"),
    ("1 mi", "length", "1.609344e3"),
    ("1 gal", "volume", "3.785412e-3"),
    ("1 imp gal", "volume", "4.54609e-3"),
    ("1 qt", "volume", "9.463529e-4"),
    ("1 fl oz", "volume", "2.957353e-5"),
    ("1 lb", "mass", "4.535924e-1"),
    ("1 grain", "mass", "6.479891e-5"),
    ("1 short ton", "mass", "9.071847e2"),
    ("1 lbf", "force", "4.448222e0"),
    ("1 hp", "power", "7.456999e2"),
    ("1 inHg", "pressure_difference", "3.386389e3"),
    ("1 mmHg", "pressure_difference", "1.333224e2"),
    ("1 in of water", "pressure_difference", "2.490889e2"),
    ("1 ft of water", "pressure_difference", "2.989067e3"),
    ("1 cm of water", "pressure_difference", "9.80665e1"),
    ("1 atm", "pressure_difference", "1.01325e5"),
    ("1 degree", "angle", "1.745329e-2"),
    ("1 year", "time", "3.1536e7"),
]

# Source: the same table. memory: these digits were not seen again in a text.
REMEMBERED = [
    ("1 ft2", "area", "9.290304e-2"),
    ("1 in2", "area", "6.4516e-4"),
    ("1 mi2", "area", "2.589988e6"),
    ("1 ft3", "volume", "2.831685e-2"),
    ("1 in3", "volume", "1.638706e-5"),
    ("1 yd3", "volume", "7.645549e-1"),
    ("1 psi", "pressure_difference", "6.894757e3"),
    ("1 psf", "strength", "4.788026e1"),
    ("1 gpm", "flow", "6.309020e-5"),
    ("1 gpd", "flow", "4.381264e-8"),
    ("1 cfs", "flow", "2.831685e-2"),
    ("1 cfm", "flow", "4.719474e-4"),
    ("1 mph", "speed", "4.4704e-1"),
    ("1 knot", "speed", "5.144444e-1"),
    ("1 lb/ft3", "density", "1.601846e1"),
    ("1 lb/ft", "mass_per_length", "1.488164e0"),
    ("1 gpg", "concentration", "1.711806e-2"),
    ("1 rpm", "speed_of_rotation", "1.047198e-1"),
]


@published("nist-sp-811", "appendix B.8")
@pytest.mark.parametrize("text, dimension, printed", RESTATED)
def test_factors_are_the_printed_ones(text: str, dimension: str, printed: str) -> None:
    assert_printed(units.read(text, dimension), printed)


@published("nist-sp-811", "appendix B.8, from memory")
@pytest.mark.parametrize("text, dimension, printed", REMEMBERED)
def test_factors_are_the_remembered_ones(text: str, dimension: str, printed: str) -> None:
    assert_printed(units.read(text, dimension), printed)


# Source: NIST SP 811 (2008), appendix B.8: an acre of the survey foot is 4.046873e3 m2.
def test_the_acre_is_within_five_millionths_of_the_older_one() -> None:
    # ours: the survey foot is 2 millionths longer, its square 4
    assert units.read("1 ac", "area") == pytest.approx(4.046873e3, rel=5e-6)


# Between and within.

AMOUNTS = [
    ("12 ft", "length", (12.0, 12.0, 12.0, 0.0), 0.3048),
    ("10..14 ft", "length", (12.0, 10.0, 14.0, 0.0), 0.3048),
    ("10 ft..14 ft", "length", (12.0, 10.0, 14.0, 0.0), 0.3048),
    ("10 .. 14 ft", "length", (12.0, 10.0, 14.0, 0.0), 0.3048),
    ("10\u202614 ft", "length", (12.0, 10.0, 14.0, 0.0), 0.3048),
    ("18 in..2 ft", "length", (1.75, 1.5, 2.0, 0.0), 0.3048),
    ("10' 6\"..12'", "length", (11.25, 10.5, 12.0, 0.0), 0.3048),
    ("-4..-2 ft", "length", (-3.0, -4.0, -2.0, 0.0), 0.3048),
    ("10..10 ft", "length", (10.0, 10.0, 10.0, 0.0), 0.3048),
    ("12 +- 1 ft", "length", (12.0, 11.0, 13.0, 1.0), 0.3048),
    ("12 \u00b1 1 ft", "length", (12.0, 11.0, 13.0, 1.0), 0.3048),
    ("12 +/- 1 ft", "length", (12.0, 11.0, 13.0, 1.0), 0.3048),
    ("12 ft +- 6 in", "length", (12.0, 11.5, 12.5, 0.5), 0.3048),
    ("12 ft +- 1 ft 6 in", "length", (12.0, 10.5, 13.5, 1.5), 0.3048),
    ("12 ft 6 in +- 3 in", "length", (12.5, 12.25, 12.75, 0.25), 0.3048),
    ("12 ft +- 5 %", "length", (12.0, 11.4, 12.6, 0.6), 0.3048),
    ("-12 ft +- 5 %", "length", (-12.0, -12.6, -11.4, 0.6), 0.3048),
    ("12 +- 0 ft", "length", (12.0, 12.0, 12.0, 0.0), 0.3048),
    ("50 +- 5 %", "share", (50.0, 45.0, 55.0, 5.0), 0.01),
    ("50 % +- 5 %", "share", (50.0, 45.0, 55.0, 5.0), 0.01),
    ("20..40 %", "share", (30.0, 20.0, 40.0, 0.0), 0.01),
    ("0.2..0.4", "share", (0.3, 0.2, 0.4, 0.0), 1.0),
    ("2..4", "count", (3.0, 2.0, 4.0, 0.0), 1.0),
    ("20..22 inHg vacuum", "pressure", (-21.0, -22.0, -20.0, 0.0), 3386.388640341),
    ("22 +- 1 inHg vacuum", "pressure", (-22.0, -23.0, -21.0, 1.0), 3386.388640341),
    ("$10..$14", "money", (12.0, 10.0, 14.0, 0.0), 100.0),
    ("$10..14", "money", (12.0, 10.0, 14.0, 0.0), 100.0),
    ("$12 +- $2", "money", (12.0, 10.0, 14.0, 2.0), 100.0),
    ("$12 +- 2", "money", (12.0, 10.0, 14.0, 2.0), 100.0),
    ("$36..72/hour", "money_per_time", (1.5, 1.0, 2.0, 0.0), 0.01),
]


@pytest.mark.parametrize("text, dimension, expected, factor", AMOUNTS)
def test_amounts(text: str, dimension: str, expected: tuple[float, ...], factor: float) -> None:
    amount = units.read_amount(text, dimension)
    got = (amount.value, amount.low, amount.high, amount.spread)
    assert got == pytest.approx(tuple(factor * each for each in expected), rel=1e-12)


def test_the_spread_of_a_temperature_is_a_difference() -> None:
    amount = units.read_amount("59 +- 9 F", "temperature")
    assert (amount.value, amount.low, amount.high, amount.spread) == pytest.approx((288.15, 283.15, 293.15, 5.0))
    assert units.read_amount("59 F +- 5 K", "temperature") == units.read_amount("59 F +- 5 C", "temperature")


def test_the_middle_of_a_range_of_money_is_in_whole_cents() -> None:
    assert units.read_amount("$1.00..$1.01", "money").value == 100.0


# Words.

LENGTH = 'a length such as "12 ft" or "3.5 m"'
IN_LENGTHS = "write it in ft, in, yd, mi, mm, cm, m or km"
GAUGE = 'a gauge pressure such as "30 psi" or "200 kPa"'
ABSOLUTE = 'an absolute pressure such as "14.2 psia" or "98 kPa abs"'
FLOW = 'a flow such as "8 gpm" or "0.5 L/s"'
SLOPE = 'a slope such as "1/4 in/ft" or "2 %"'
MONEY = 'an amount of money such as "$12.50"'
TEMPERATURE = 'a temperature such as "58 F" or "14 C"'
MASS = 'a mass such as "20 lb" or "9 kg"'
TIME = 'a time such as "30 min" or "90 s"'
NO_NUMBER = "write the number, then the unit"
ONE_POINT = "write one point, as 1340.5"

REFUSED = [
    # a number that is none
    ("", "length", '"", where a number is missing', LENGTH, NO_NUMBER),
    ("  ", "length", '"  ", where a number is missing', LENGTH, NO_NUMBER),
    ("-", "length", '"-", where a number is missing', LENGTH, NO_NUMBER),
    ("ft", "length", '"ft", which does not begin with a number', LENGTH, NO_NUMBER),
    ("ft 12", "length", '"ft 12", which does not begin with a number', LENGTH, NO_NUMBER),
    ("open", "length", '"open", which does not begin with a number', LENGTH, NO_NUMBER),
    ("nan ft", "length", '"nan ft", which does not begin with a number', LENGTH, NO_NUMBER),
    ("inf ft", "length", '"inf ft", which does not begin with a number', LENGTH, NO_NUMBER),
    ("--4 ft", "length", '"--4 ft", which does not begin with a number', LENGTH, NO_NUMBER),
    ("\u0661\u0662 ft", "length", '"\u0661\u0662 ft", which does not begin with a number', LENGTH, NO_NUMBER),
    ("1e999 ft", "length", '"1e999 ft", a number past any use', LENGTH, "check the digits"),
    ("1e99999999 ft", "length", '"1e99999999 ft", a number past any use', LENGTH, "check the digits"),
    ("2e15 ft", "length", '"2e15 ft", a number past any use', LENGTH, "check the digits"),
    ("9" * 61 + " ft", "length", '"' + "9" * 60 + '...", a number past any use', LENGTH, "check the digits"),
    ("1" * 201, "length", '"' + "1" * 60 + '...", 201 letters long', LENGTH, "write at most 200 letters"),
    ("\x00 ft", "length", '"\\x00 ft", which does not begin with a number', LENGTH, NO_NUMBER),
    # commas and spaces
    (
        "1,340 ft",
        "length",
        '"1,340 ft", whose comma reads two ways: 1340 or 1.340',
        LENGTH,
        "write 1340 or 1.340",
    ),
    ("0,5 ft", "length", '"0,5 ft", with a comma for the decimal point', LENGTH, "write a point: 0.5"),
    ("0,500 ft", "length", '"0,500 ft", with a comma for the decimal point', LENGTH, "write a point: 0.500"),
    ("1.340,5 ft", "length", '"1.340,5 ft", whose commas and points do not make a number', LENGTH, ONE_POINT),
    (
        "1,34,567 ft",
        "length",
        '"1,34,567 ft", whose commas and points do not make a number',
        LENGTH,
        ONE_POINT,
    ),
    ("1.2.3 ft", "length", '"1.2.3 ft", whose commas and points do not make a number', LENGTH, ONE_POINT),
    (
        "1 340 ft",
        "length",
        '"1 340 ft", a number with a space in it',
        LENGTH,
        "write the digits without spaces, as 1340",
    ),
    (
        "12 5 ft",
        "length",
        '"12 5 ft", two numbers side by side',
        LENGTH,
        "write 12.5, 12-1/2 or 12 ft 5 in",
    ),
    (
        "10-14 ft",
        "length",
        '"10-14 ft", two numbers with a dash between',
        LENGTH,
        "write a range as 10..14, a fraction as 12-1/2",
    ),
    # fractions
    ("1/0 in", "length", '"1/0 in", which divides by nothing', LENGTH, "write a fraction such as 1/2"),
    (
        "1/2/3 ft",
        "length",
        '"1/2/3 ft", whose slashes do not make a fraction',
        LENGTH,
        "write 12-1/2 or 12.5",
    ),
    ("12-3/2 in", "length", '"12-3/2 in", whose fraction is not less than one', LENGTH, "write it as 12-1/2"),
    # two units
    (
        "12 ft 14 in",
        "length",
        '"12 ft 14 in", whose two parts do not add up to one',
        LENGTH,
        "write as 12 ft 6 in, or as 12.5 ft",
    ),
    (
        "12.5 ft 6 in",
        "length",
        '"12.5 ft 6 in", whose two parts do not add up to one',
        LENGTH,
        "write as 12 ft 6 in, or as 12.5 ft",
    ),
    (
        "12 ft 6",
        "length",
        '"12 ft 6", whose second number has no unit',
        LENGTH,
        "write the unit after both, as 12 ft 6 in",
    ),
    ("12 ft 6 mm", "length", '"12 ft 6 mm", where "ft 6 mm" is no unit known here', LENGTH, IN_LENGTHS),
    ("4 x 12 in", "length", '"4 x 12 in", where "x 12 in" is no unit known here', LENGTH, IN_LENGTHS),
    # units
    (
        "12",
        "length",
        '"12", a number without a unit',
        LENGTH,
        "add the unit: ft, in, yd, mi, mm, cm, m or km",
    ),
    ("12 furlongs", "length", '"12 furlongs", where "furlongs" is no unit known here', LENGTH, IN_LENGTHS),
    ("10\u00b2 ft", "length", '"10\u00b2 ft", where "2 ft" is no unit known here', LENGTH, IN_LENGTHS),
    ("12 psi", "length", '"12 psi", a pressure', LENGTH, IN_LENGTHS),
    ("12 gpm", "length", '"12 gpm", a flow', LENGTH, IN_LENGTHS),
    ("$12", "length", '"$12", an amount of money', LENGTH, IN_LENGTHS),
    ("12 %", "length", '"12 %", a slope', LENGTH, IN_LENGTHS),
    (
        "12 ft",
        "flow",
        '"12 ft", a length',
        FLOW,
        "write it in gpm, gph, gpd, cfs, imp gpm, L/s, L/min, m3/h or m3/d",
    ),
    ("3 ft", "count", '"3 ft", a length', 'a plain number such as "3"', "write it in digits, without a unit"),
    (
        "5 ft",
        "share",
        '"5 ft", a length',
        'a share of the whole such as "50 %" or "0.5"',
        "write it in % or a plain number",
    ),
    # two readings
    (
        "5 m",
        "time",
        '"5 m", where "m" reads two ways: minutes or months',
        TIME,
        "write min for minutes, days for longer",
    ),
    (
        "5 M",
        "time",
        '"5 M", where "M" reads two ways: minutes or months',
        TIME,
        "write min for minutes, days for longer",
    ),
    (
        "8 gal/m",
        "flow",
        '"8 gal/m", where "m" reads two ways: minutes or months',
        FLOW,
        "write min for minutes, days for longer",
    ),
    (
        "2 tons",
        "mass",
        '"2 tons", where "tons" reads two ways: a short ton of 2000 lb or a tonne of 1000 kg',
        MASS,
        "write short ton, tonne, lb or kg",
    ),
    (
        "2 oz",
        "mass",
        '"2 oz", where "oz" reads two ways: an ounce of weight or a fluid ounce',
        MASS,
        "write lb for weight, fl oz or qt for volume",
    ),
    (
        "2 oz",
        "volume",
        '"2 oz", where "oz" reads two ways: an ounce of weight or a fluid ounce',
        'a volume such as "62 gal" or "240 L"',
        "write lb for weight, fl oz or qt for volume",
    ),
    (
        "2 pt",
        "volume",
        '"2 pt", where "pt" reads two ways: pints or points',
        'a volume such as "62 gal" or "240 L"',
        "write qt, gal or L",
    ),
    (
        "5 mil",
        "length",
        '"5 mil", where "mil" reads two ways: a thousandth of an inch or a millimeter',
        LENGTH,
        "write in or mm",
    ),
    (
        "5 Mm",
        "length",
        '"5 Mm", where "Mm" may be milli- or mega-',
        LENGTH,
        "write mm if that is meant",
    ),
    (
        "200 mPa",
        "pressure",
        '"200 mPa", where "mPa" may be milli- or mega-',
        GAUGE,
        "write MPa if that is meant",
    ),
    (
        "40 mj/cm2",
        "dose",
        '"40 mj/cm2", where "mj" may be milli- or mega-',
        'a UV dose such as "40 mJ/cm2" or "400 J/m2"',
        "write mJ or MJ if that is meant",
    ),
    (
        "2 MG/L",
        "concentration",
        '"2 MG/L", where "MG" may be milli- or mega-',
        'a concentration such as "2 mg/L"',
        "write mg if that is meant",
    ),
    (
        "68 deg",
        "temperature",
        '"68 deg", where "deg" reads two ways: Fahrenheit or Celsius',
        TEMPERATURE,
        "write F or C",
    ),
    (
        "68\u00b0",
        "temperature",
        '"68\u00b0", where "deg" reads two ways: Fahrenheit or Celsius',
        TEMPERATURE,
        "write F or C",
    ),
    ("68", "temperature", '"68", a number without a unit', TEMPERATURE, "add the unit: F, C or K"),
    (
        "1800 degree days",
        "degree_days",
        '"1800 degree days", where "degree days" reads two ways: Fahrenheit days or Celsius days',
        'a sum of degree-days such as "1800 F days" or "1000 C days"',
        "write F days or C days",
    ),
    (
        "30 lb",
        "pressure",
        '"30 lb", where "lb" reads two ways: pounds per square inch or pounds of force',
        GAUGE,
        "write psi",
    ),
    (
        "30 ft",
        "pressure",
        '"30 ft", where "ft" reads two ways: a height of water or a length',
        GAUGE,
        "write ft of water, m of water, psi or kPa",
    ),
    (
        "22 inHg",
        "pressure",
        '"22 inHg", where "inHg" reads two ways: a vacuum or a pressure above the air\'s',
        GAUGE,
        "write inHg vacuum if it is suction, psi if not",
    ),
    (
        "-22 inHg vacuum",
        "pressure",
        '"-22 inHg vacuum", a vacuum with a minus',
        GAUGE,
        "write inHg vacuum without a sign",
    ),
    ("30 psia", "pressure", '"30 psia", an absolute pressure', GAUGE, "write what a gauge shows, as 30 psi"),
    (
        "14 psi",
        "pressure_absolute",
        '"14 psi", where "psi" reads two ways: gauge or absolute',
        ABSOLUTE,
        "write psia, or kPa abs",
    ),
    (
        "14 psig",
        "pressure_absolute",
        '"14 psig", a gauge pressure',
        ABSOLUTE,
        "write the absolute pressure, as 14.2 psia or 98 kPa abs",
    ),
    (
        "22 inHg vacuum",
        "pressure_absolute",
        '"22 inHg vacuum", a gauge pressure',
        ABSOLUTE,
        "write the absolute pressure, as 14.2 psia or 98 kPa abs",
    ),
    (
        "29.9 inHg",
        "pressure_absolute",
        '"29.9 inHg", where "inHg" reads two ways: a vacuum or an absolute pressure',
        ABSOLUTE,
        "write inHg abs, or kPa abs",
    ),
    ("2 degrees", "slope", '"2 degrees", an angle', SLOPE, "write it in in/ft, ft/ft, m/m or %"),
    (
        "3:1",
        "slope",
        '"3:1", a ratio that reads as rise to run or run to rise',
        SLOPE,
        "write a percentage, or in/ft",
    ),
    # money
    ("12.50", "money", '"12.50", a number without a unit', MONEY, "add the unit: dollars, as $12.50"),
    ("$12.505", "money", '"$12.505", a part of a cent', MONEY, "write dollars and whole cents, as $12.50"),
    ("$12/ft", "money", '"$12/ft", a price per length', MONEY, "write it in dollars, as $12.50"),
    ("$$12", "money", '"$$12", which does not begin with a number', MONEY, NO_NUMBER),
    # ranges and spreads
    (
        "14..10 ft",
        "length",
        '"14..10 ft", a range from the larger to the smaller',
        LENGTH,
        "write the smaller end first",
    ),
    (
        "22..20 inHg vacuum",
        "pressure",
        '"22..20 inHg vacuum", a range from the larger to the smaller',
        GAUGE,
        "write the smaller end first",
    ),
    ("..4 ft", "length", '"..4 ft", a range with one end', LENGTH, "write both ends, as 10..14"),
    ("4 ft..", "length", '"4 ft..", a range with one end', LENGTH, "write both ends, as 10..14"),
    (
        "10...14 ft",
        "length",
        '"10...14 ft", with three points',
        LENGTH,
        "write two points between the ends, as 10..14",
    ),
    (
        "10..12..14 ft",
        "length",
        '"10..12..14 ft", which has more than one range or spread',
        LENGTH,
        "write 10..14 or 12 +- 1, not both",
    ),
    (
        "10..14 +- 1 ft",
        "length",
        '"10..14 +- 1 ft", which has more than one range or spread',
        LENGTH,
        "write 10..14 or 12 +- 1, not both",
    ),
    (
        "10 ft..14",
        "length",
        '"10 ft..14", whose second number has no unit',
        LENGTH,
        "write the unit at the end, or after both",
    ),
    (
        "10..12 ft 6 in",
        "length",
        '"10..12 ft 6 in", whose first number has no unit',
        LENGTH,
        "write the unit after both",
    ),
    (
        "12 +- 1 +- 2 ft",
        "length",
        '"12 +- 1 +- 2 ft", which has more than one spread',
        LENGTH,
        "write one spread, as 12 +- 1",
    ),
    (
        "+- 1 ft",
        "length",
        '"+- 1 ft", a spread with one side',
        LENGTH,
        "write both the value and its spread, as 12 +- 1",
    ),
    (
        "12 +- -1 ft",
        "length",
        '"12 +- -1 ft", a spread with a sign',
        LENGTH,
        "write the spread without a sign",
    ),
    (
        "12 +- 5 %",
        "length",
        '"12 +- 5 %", a number without a unit',
        LENGTH,
        "add the unit: ft, in, yd, mi, mm, cm, m or km",
    ),
    (
        "60 F +- 5 %",
        "temperature",
        '"60 F +- 5 %", a percentage of a temperature',
        TEMPERATURE,
        "write the spread in F, C or K",
    ),
]


@pytest.mark.message
@pytest.mark.parametrize("text, dimension, found, wanted, remedy", REFUSED)
def test_refusals_say_what_was_found_wanted_and_to_write(
    text: str, dimension: str, found: str, wanted: str, remedy: str
) -> None:
    with pytest.raises(UnitError) as caught:
        units.read_amount(text, dimension)
    assert (caught.value.found, caught.value.wanted, caught.value.remedy) == (found, wanted, remedy)
    assert str(caught.value) == f"found {found}; wanted {wanted}; {remedy}"


@pytest.mark.message
@pytest.mark.parametrize("text", ["10..14 ft", "12 +- 1 ft"])
def test_one_number_is_one_number(text: str) -> None:
    with pytest.raises(UnitError) as caught:
        units.read(text, "length")
    assert caught.value.found == f'"{text}", which is more than one number'
    assert caught.value.remedy == "write one value, without .. or +-"


@pytest.mark.parametrize(
    "dimensions, spelling",
    [(where, each) for where, spellings, _ in units.TWO_READINGS for each in spellings.split("|")],
)
def test_what_reads_two_ways_is_refused_where_it_does(dimensions: str, spelling: str) -> None:
    for dimension in dimensions.split("|") if dimensions else ["mass", "volume", "flow", "energy"]:
        with pytest.raises(UnitError, match="reads two ways"):
            units.read(f"1 {spelling}", dimension)


@pytest.mark.parametrize("dimension", units.NOUNS)
def test_what_a_message_offers_can_be_read(dimension: str) -> None:
    noun = units.NOUNS[dimension]
    for example in (noun.us_example, noun.si_example):
        assert math.isfinite(units.read(example, dimension))


def test_every_spelling_reads_alike_in_small_letters_or_is_refused() -> None:
    refused = set()
    for dimension, table in units.UNITS.items():
        for spelling in (each for unit in table for each in unit.spellings.split("|") if each != "$"):
            value = units.read(f"1 {spelling}", dimension)
            try:
                assert units.read(f"1 {spelling.lower()}", dimension) == value
            except UnitError:
                refused.add(spelling)
    assert refused == {"mJ", "MJ"}


# Shown.

SHOWN = [
    (3.81, "depth", "12.5 ft", "3.81 m"),
    (0.3175, "part", "12-1/2 in", "318 mm"),
    (0.0127, "part", "1/2 in", "13 mm"),
    (0.3048, "part", "12 in", "305 mm"),
    (-0.0127, "part", "-1/2 in", "-13 mm"),
    (0.0003, "part", "0 in", "0 mm"),
    (0.30479, "part", "12 in", "305 mm"),
    (1.2192, "height", "+4.0 ft", "+1.22 m"),
    (-0.762, "height", "-2.5 ft", "-0.76 m"),
    (0.0, "height", "0.0 ft", "0.00 m"),
    (-0.001, "height", "0.0 ft", "0.00 m"),
    (408.432, "elevation", "1340 ft", "408 m"),
    (45.72, "head", "150.0 ft", "45.72 m"),
    (6.096, "lift", "20.0 ft", "6.1 m"),
    (0.040894, "bore", "1.610 in", "40.9 mm"),
    (1.5e-6, "roughness", "0.00006 in", "0.0015 mm"),
    (206842.7187950508, "gauge", "30 psi", "207 kPa"),
    (101352.932, "absolute", "14.7 psia", "101.4 kPa abs"),
    (29800.0, "vacuum", "8.8 inHg", "29.8 kPa"),
    (4.7317647e-4, "flow", "7.5 gpm", "0.47 L/s"),
    (1.524, "speed", "5.0 ft/s", "1.52 m/s"),
    (0.117, "face_speed", "0.38 ft/s", "0.117 m/s"),
    (5.44310844, "mass", "12 lb", "5.4 kg"),
    (123450.0, "money", "$1,234.50", "$1,234.50"),
    (-500.0, "money", "-$5.00", "-$5.00"),
    (0.0, "money", "$0.00", "$0.00"),
    (85.0 / 3600.0, "money_per_time", "$85.00/hour", "$85.00/hour"),
    (1.2 / 0.3048, "money_per_length", "$1.20/ft", "$3.94/m"),
    (0.5, "share", "50 %", "50 %"),
    (293.15, "temperature", "68 F", "20.0 C"),
    (559.275, "power", "0.75 hp", "559 W"),
    (8.64e7, "degree_days", "1800 F days", "1000 C days"),
    (400.0, "dose", "40 mJ/cm2", "40 mJ/cm2"),
    (1.0 / 48.0, "slope", "0.25 in/ft", "2.1 %"),
    (15.0 / 3600.0, "starts", "15.0 per hour", "15.0 per hour"),
    (90.0, "minutes", "1.5 min", "1.5 min"),
    (3.0, "count", "3", "3"),
    (1.1, "count", "1.1", "1.1"),
    (100.0, "count", "100", "100"),
    (-0.001, "count", "0", "0"),
    (0.2346955, "volume", "62.0 gal", "235 L"),
    (2.0e6, "modulus", "290 psi", "2 MPa"),
]


@pytest.mark.parametrize("value, kind, us, si", SHOWN)
def test_numbers_are_shown_as_the_trade_writes_them(value: float, kind: str, us: str, si: str) -> None:
    assert (units.show(value, kind, "US"), units.show(value, kind, "SI")) == (us, si)


@pytest.mark.parametrize("value, shown", [(0.5, "1 s"), (1.5, "2 s"), (2.5, "3 s"), (-2.5, "-3 s"), (2.4999, "2 s")])
def test_a_half_is_rounded_away_from_zero(value: float, shown: str) -> None:
    assert units.show(value, "time", "SI") == shown


def test_a_half_that_floats_leave_short_is_a_half() -> None:
    assert 0.285 * 100.0 < 28.5
    assert units.show(0.285, "speed", "SI") == "0.29 m/s"


@pytest.mark.parametrize("system", ["US", "SI"])
@pytest.mark.parametrize("kind", units.KINDS)
def test_what_is_no_number_is_said_in_words(kind: str, system: str) -> None:
    assert units.show(math.nan, kind, system) == "unknown"
    assert units.show(math.inf, kind, system) == units.show(-math.inf, kind, system) == "no limit"


@pytest.mark.parametrize("system", ["US", "SI"])
@pytest.mark.parametrize("kind", units.KINDS)
def test_figure_and_unit_are_the_halves_of_show(kind: str, system: str) -> None:
    value = 300.0
    figure, unit = units.figure(value, kind, system), units.unit_of(kind, system)
    assert units.show(value, kind, system) in (figure + unit, f"{figure} {unit}")


def least_step(kind: units.Kind, system: str) -> float:
    """Half of the last place shown, in SI."""
    unit = kind.si_unit if system == "SI" else kind.us_unit
    places = kind.si_places if system == "SI" else kind.us_places
    difference = "temperature_difference" if kind.dimension == "temperature" else kind.dimension
    one = units.read(f"$1{unit[1:]}" if unit.startswith("$") else f"1 {unit}", difference)
    return 0.5 * one / (kind.fraction if kind.fraction and system == "US" else 10.0**places)


@pytest.mark.law
@pytest.mark.parametrize("system", ["US", "SI"])
@pytest.mark.parametrize("kind", units.KINDS)
@given(times=st.floats(-1.0e6, 1.0e6))
@settings(derandomize=True, deadline=None, max_examples=40)
def test_what_is_shown_reads_back_within_half_a_place(kind: str, system: str, times: float) -> None:
    how = units.KINDS[kind]
    half = least_step(how, system)
    value = times * half
    back = units.read(units.show(value, kind, system), how.dimension)
    # A billionth of a place is swept up in rounding; beside an offset of 273 K, floats leave a little more.
    step = max(half, half_of_the_last_digit(value, kind, system))
    assert abs(back - value) <= step * (1.0 + 1e-6) + 1e-12 * (abs(value) + 300.0)


def half_of_the_last_digit(value: float, kind: str, system: str) -> float:
    """Half of the fourth digit of a number as it is shown, in SI; nothing where all of its digits are shown."""
    how, unit = units.KINDS[kind], shown_unit(kind, system)
    number = abs(value - unit.offset) / unit.factor
    if number == 0.0 or how.dimension.startswith("money") or (how.fraction and system == "US"):
        return 0.0
    return 0.5 * unit.factor * 10.0 ** (math.floor(math.log10(number)) - 3)


# Worked by hand: four digits, and every digit of money, of a fraction and of a whole count.
FOUR_DIGITS = [
    (17857.1e-3 / 86400.0, "daily_flow", "SI", "17860 L/day"),
    (9999.6e-3 / 86400.0, "daily_flow", "SI", "10000 L/day"),
    (1609.344, "length", "SI", "1609 m"),
    (323.45 * 0.3048, "speed", "US", "323.5 ft/s"),
    (0.31496 * 0.0254, "roughness", "US", "0.3150 in"),
    (-0.31496, "height", "SI", "-0.31 m"),
    (1_234_567.0, "money", "US", "$12,345.67"),
    (123_456.0, "count", "SI", "123456"),
    (58740220.45, "count", "SI", "58740000"),
    (1001.0625 * 0.0254, "part", "US", "1001-1/16 in"),
]


@pytest.mark.law
@pytest.mark.parametrize("value, kind, system, shown", FOUR_DIGITS)
def test_nothing_is_shown_finer_than_to_four_digits(value: float, kind: str, system: str, shown: str) -> None:
    assert units.show(value, kind, system) == shown


@pytest.mark.law
def test_two_numbers_are_told_apart_past_the_fourth_digit() -> None:
    assert units.show_apart(17857e-3 / 86400.0, 17858e-3 / 86400.0, "daily_flow", "SI") == (
        "17857 L/day",
        "17858 L/day",
    )


@pytest.mark.law
@pytest.mark.parametrize("system", ["US", "SI"])
@pytest.mark.parametrize("kind", units.KINDS)
def test_showing_twice_changes_nothing(kind: str, system: str) -> None:
    once = units.show(321.987 * least_step(units.KINDS[kind], system), kind, system)
    assert units.show(units.read(once, units.KINDS[kind].dimension), kind, system) == once


@pytest.mark.law
@given(low=st.floats(-1e6, 1e6), width=st.floats(0.0, 1e6))
@settings(derandomize=True, deadline=None, max_examples=100)
def test_a_range_holds_its_middle(low: float, width: float) -> None:
    amount = units.read_amount(f"{low!r}..{low + width!r} ft", "length")
    assert amount.low <= amount.value <= amount.high
    assert amount.spread == 0.0


PIECES = st.sampled_from(
    [
        *"0123456789.,+-/'\" $%:()^",
        *(
            "..",
            "+-",
            "12",
            "1/2",
            "1,340",
            "e9",
            "1e400",
            "\u00bd",
            "\u00b2",
            "\u00b1",
            "\u2026",
            "\u2032",
            "\u00b0",
        ),
        *(
            "ft",
            "in",
            "psi",
            "gpm",
            "m",
            "min",
            "F",
            "C",
            "deg",
            "kPa",
            "MPa",
            "inHg",
            "vacuum",
            "abs",
            "per",
            "h",
            "L",
        ),
        *("100 mL", "days", "/s", "x", "sq", "cu", "of water", "mW", "mj", "ohm/1000 ft", "\x00", "\ud800"),
    ]
)
JOINED = st.tuples(st.sampled_from(["", " "]), st.lists(PIECES, max_size=8)).map(lambda both: both[0].join(both[1]))


@pytest.mark.law
@given(
    text=st.one_of(st.text(max_size=40), JOINED),
    dimension=st.sampled_from(sorted(units.NOUNS)),
)
@settings(derandomize=True, deadline=None, max_examples=3000)
def test_any_text_is_read_or_refused_in_words(text: str, dimension: str) -> None:
    for door in (units.read, units.read_amount):
        refused = None
        try:
            got = door(text, dimension)
        except UnitError as error:
            refused = error
        if refused is None:
            numbers = [got] if isinstance(got, float) else [got.value, got.low, got.high, got.spread]
            assert all(map(math.isfinite, numbers))
        else:
            assert str(refused).isprintable()
            assert refused.wanted.startswith(units.NOUNS[dimension].name)
            assert all((refused.found, refused.remedy))


def test_every_kind_shows_a_dimension_that_can_be_read() -> None:
    for name, kind in units.KINDS.items():
        assert kind.dimension in units.NOUNS, name


def test_the_page_of_units_is_current() -> None:
    assert PAGE.read_text(encoding="utf-8") == reference(), "run: python -m tests.test_units"


if __name__ == "__main__":
    PAGE.write_text(reference(), encoding="utf-8")
