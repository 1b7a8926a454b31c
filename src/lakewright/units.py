"""Quantities as people write them, and as the trade wants them shown.

Inside, every number is SI; a unit exists as a word only here. `read` and `read_amount` take text in, `show`
gives text out, and nothing else in the project does either. A spelling that reads two ways is refused with
both readings.
"""

from __future__ import annotations

import functools
import math
import re
from dataclasses import dataclass
from typing import NamedTuple, NoReturn

from lakewright.errors import UnitError

LONGEST = 200  # ours: no quantity takes more letters; longer is a paste into the wrong place
LONGEST_ECHO = 60  # ours: a message repeats at most this much of what was written
LARGEST = 1.0e15  # ours: past this a float drops whole units, and no supply has such a number

# Published, NIST Special Publication 811 (2008), appendix B.8, exact by definition: what US units rest on.
FOOT = 0.3048
INCH = 0.0254
POUND = 0.45359237
GALLON = 231.0 * INCH**3
IMPERIAL_GALLON = 4.54609e-3
GRAVITY = 9.80665
POUND_FORCE = POUND * GRAVITY
# Published, NIST SP 811 (2008), appendix B.8: conventional columns stand at 1000 kg/m3 and 13595.1 kg/m3.
WATER_COLUMN = 1000.0 * GRAVITY
MERCURY_COLUMN = 13595.1 * GRAVITY
# memory: density of water at 60 F to its print; a pressure given where a head is wanted stands in such water.
WATER_AT_60_F = 999.0


@dataclass(frozen=True, slots=True)
class Amount:
    """A quantity in SI: known, within low..high, or value with a spread on both sides."""

    value: float
    low: float
    high: float
    spread: float


@dataclass(frozen=True, slots=True)
class Kind:
    """How a number is shown: unit and places in each system.

    `fraction` is the denominator of US fractions of a unit, 0 for decimals; `signed` puts a plus before what
    is above; `trimmed` drops noughts behind the point.
    """

    dimension: str
    us_unit: str
    us_places: int
    si_unit: str
    si_places: int
    fraction: int = 0
    signed: bool = False
    trimmed: bool = False


class Unit(NamedTuple):
    """One unit: SI value = number * factor + offset. A bar parts the spellings, the usual one first."""

    factor: float
    spellings: str
    origin: str
    offset: float = 0.0


class Noun(NamedTuple):
    """How a message names a dimension, its unit inside, and what a message offers to write."""

    name: str
    si_unit: str
    us_example: str
    si_example: str
    offered: str
    bare: bool = False  # a plain number is complete by itself


SP811 = "SP 811"  # as above
SI = "SI"
ARITHMETIC = "arithmetic"

UNITS: dict[str, tuple[Unit, ...]] = {
    "length": (
        Unit(FOOT, "ft|foot|feet|'", f"{SP811}, exact"),
        Unit(INCH, 'in|inch|inches|"', f"{SP811}, exact"),
        Unit(3.0 * FOOT, "yd|yds|yard|yards", f"{SP811}, exact"),
        Unit(5280.0 * FOOT, "mi|mile|miles", f"{SP811}, exact"),
        Unit(1.0, "m|meter|meters|metre|metres", SI),
        Unit(1.0e-6, "um|micron|microns|micrometer|micrometers|micrometre|micrometres", SI),
        Unit(1.0e-3, "mm|millimeter|millimeters|millimetre|millimetres", SI),
        Unit(1.0e-2, "cm|centimeter|centimeters|centimetre|centimetres", SI),
        Unit(1.0e3, "km|kilometer|kilometers|kilometre|kilometres", SI),
    ),
    "area": (
        Unit(43560.0 * FOOT**2, "ac|acre|acres", "43,560 ft2 of the 0.3048 m foot, not the survey foot"),
        Unit(1.0e4, "ha|hectare|hectares", f"{SP811}, exact"),
        Unit(FOOT**2, "sf", ARITHMETIC),
    ),
    "volume": (
        Unit(
            GALLON,
            "gal|gals|gallon|gallons|US gal|USgal|US gallon|US gallons|gal (US)",
            f"{SP811}: 231 cubic inches",
        ),
        Unit(
            IMPERIAL_GALLON,
            "imp gal|impgal|igal|imperial gal|imperial gallon|imperial gallons|imp gallon|imp gallons|UK gal",
            f"{SP811}, exact",
        ),
        Unit(GALLON / 4.0, "qt|qts|quart|quarts|US qt", f"{SP811}: a quarter of the US gallon"),
        Unit(
            GALLON / 128.0,
            "fl oz|floz|fluid ounce|fluid ounces|US fl oz",
            f"{SP811}: a 128th of the US gallon",
        ),
        Unit(1.0e-3, "L|l|liter|liters|litre|litres", SI),
        Unit(1.0e-6, "mL|ml|milliliter|milliliters|millilitre|millilitres|cc", SI),
        Unit(1.0, "kL|kl|kiloliter|kiloliters|kilolitre|kilolitres", SI),
        Unit(
            43560.0 * FOOT**3,
            "acre ft|acre foot|acre feet|ac ft|ac feet|acres ft",
            "43,560 ft3 of the 0.3048 m foot",
        ),
        Unit(43560.0 * FOOT**2 * INCH, "acre in|acre inch|acre inches|ac in", "a twelfth of the acre-foot"),
    ),
    "mass": (
        Unit(POUND, "lb|lbs|pound|pounds|lbm", f"{SP811}, exact"),
        Unit(1.0, "kg|kgs|kilogram|kilograms", SI),
        Unit(1.0e-3, "g|gram|grams", SI),
        Unit(1.0e-6, "mg|milligram|milligrams", SI),
        Unit(1.0e-9, "ug|microgram|micrograms", SI),
        Unit(POUND / 7000.0, "grain|grains", f"{SP811}: a 7000th of the pound"),
        Unit(2000.0 * POUND, "short ton|short tons|US ton|US tons", f"{SP811}: 2000 lb"),
        Unit(1.0e3, "tonne|tonnes|metric ton|metric tons|metric tonne|metric tonnes", SI),
    ),
    "time": (
        Unit(1.0, "s|sec|secs|second|seconds", SI),
        Unit(1.0e-3, "ms|millisecond|milliseconds", SI),
        Unit(60.0, "min|mins|minute|minutes", SI),
        Unit(3600.0, "h|hr|hrs|hour|hours", SI),
        Unit(86400.0, "d|day|days", SI),
        Unit(7.0 * 86400.0, "wk|wks|week|weeks", "7 days"),
        Unit(365.0 * 86400.0, "yr|yrs|year|years", f"{SP811}: the year of 365 days"),
    ),
    "speed": (
        Unit(FOOT, "fps", ARITHMETIC),
        Unit(FOOT / 60.0, "fpm", ARITHMETIC),
        Unit(5280.0 * FOOT / 3600.0, "mph", f"{SP811}, exact"),
        Unit(1.0 / 3.6, "kph|kmh", SI),
        Unit(1852.0 / 3600.0, "kn|kt|kts|knot|knots", f"{SP811}: 1852 m in an hour"),
    ),
    "flow": (
        Unit(GALLON / 60.0, "gpm|USgpm|US gpm", ARITHMETIC),
        Unit(GALLON / 3600.0, "gph|USgph|US gph", ARITHMETIC),
        Unit(GALLON / 86400.0, "gpd|USgpd|US gpd", ARITHMETIC),
        Unit(IMPERIAL_GALLON / 60.0, "imp gpm|igpm|imperial gpm|UK gpm", ARITHMETIC),
        Unit(IMPERIAL_GALLON / 86400.0, "imp gpd|igpd|imperial gpd|UK gpd", ARITHMETIC),
        Unit(FOOT**3, "cfs|cusec|cusecs", ARITHMETIC),
        Unit(FOOT**3 / 60.0, "cfm", ARITHMETIC),
        Unit(1.0e-3, "lps", SI),
        Unit(1.0e-3 / 60.0, "lpm", SI),
    ),
    "pressure_difference": (
        Unit(POUND_FORCE / INCH**2, "psi|psid|lb/in2|lbf/in2|lbs/in2|lb/sq in|lbf/sq in", f"{SP811}: lbf/in2"),
        Unit(1.0, "Pa|pascal|pascals|N/m2", SI),
        Unit(1.0e2, "hPa|mbar|mbars|millibar|millibars", f"{SP811}, exact"),
        Unit(1.0e3, "kPa|kilopascal|kilopascals", SI),
        Unit(1.0e6, "MPa|megapascal|megapascals", SI),
        Unit(1.0e5, "bar|bars", f"{SP811}, exact"),
        Unit(101325.0, "atm|atmosphere|atmospheres", f"{SP811}: the standard atmosphere"),
        Unit(
            INCH * MERCURY_COLUMN,
            "inHg|in Hg|in of Hg|in of mercury|inches of mercury|inches Hg",
            f"{SP811}: conventional",
        ),
        Unit(1.0e-3 * MERCURY_COLUMN, "mmHg|mm Hg|mm of mercury|torr", f"{SP811}: conventional"),
        Unit(
            FOOT * WATER_COLUMN,
            "ft of water|feet of water|foot of water|ftH2O|ft H2O|ft of H2O|ft of head|feet of head|ft head",
            f"{SP811}: conventional",
        ),
        Unit(
            INCH * WATER_COLUMN,
            "in of water|inches of water|inch of water|inH2O|in H2O|in of H2O|in wc",
            f"{SP811}: conventional",
        ),
        Unit(
            WATER_COLUMN,
            "m of water|meters of water|metres of water|mH2O|m H2O|m of H2O|m of head|m head",
            f"{SP811}: conventional",
        ),
        Unit(1.0e-3 * WATER_COLUMN, "mm of water|mmH2O|mm H2O|mm of H2O", f"{SP811}: conventional"),
        Unit(1.0e-2 * WATER_COLUMN, "cm of water|cmH2O|cm H2O|cm of H2O", f"{SP811}: conventional"),
    ),
    "temperature": (
        Unit(5.0 / 9.0, "F|Fahrenheit", f"{SP811}: K = (F + 459.67) / 1.8", 459.67 * 5.0 / 9.0),
        Unit(1.0, "C|Celsius|Centigrade", f"{SP811}: K = C + 273.15", 273.15),
        Unit(1.0, "K|kelvin|kelvins", SI),
    ),
    "temperature_difference": (
        Unit(5.0 / 9.0, "F|Fahrenheit", f"{SP811}: 1/1.8 K"),
        Unit(1.0, "C|K|Celsius|Centigrade|kelvin|kelvins", SI),
    ),
    "power": (
        Unit(550.0 * FOOT * POUND_FORCE, "hp|horsepower|HP", f"{SP811}: 550 ft lbf/s"),
        Unit(1.0, "W|watt|watts", SI),
        Unit(1.0e3, "kW|kilowatt|kilowatts", SI),
    ),
    "energy": (
        Unit(3.6e6, "kWh|kW h|kilowatt hour|kilowatt hours", f"{SP811}, exact"),
        Unit(3600.0, "Wh|W h|watt hour|watt hours", f"{SP811}, exact"),
        Unit(1.0, "J|joule|joules|W s|Ws", SI),
        Unit(1.0e-3, "mJ|millijoule|millijoules|mW s|mWs", SI),
        Unit(1.0e-6, "uJ|microjoule|microjoules|uW s|uWs", SI),
        Unit(1.0e3, "kJ|kilojoule|kilojoules", SI),
        Unit(1.0e6, "MJ|megajoule|megajoules", SI),
    ),
    "degree_days": (
        Unit(86400.0 * 5.0 / 9.0, "F days|F day|F d|Fahrenheit days", f"{SP811}: 1/1.8 K for a day"),
        Unit(86400.0, "C days|C day|C d|K days|K day|K d|Celsius days", SI),
    ),
    "dose": (),
    "angle": (
        Unit(math.pi / 180.0, "degrees|degree|deg", f"{SP811}: pi/180"),
        Unit(1.0, "rad|radian|radians", SI),
    ),
    "slope": (Unit(0.01, "%|percent|pct", "a hundredth"),),
    "share": (Unit(1.0, "", "a plain number"), Unit(0.01, "%|percent|pct", "a hundredth")),
    "concentration": (
        Unit(1.0e-3, "ppm", "common practice, no source: of water at 1 kg/L, so 1 mg/L"),
        Unit(1.0e-6, "ppb", "common practice, no source: of water at 1 kg/L, so 1 ug/L"),
        Unit(POUND / 7000.0 / GALLON, "gpg", f"{SP811}: grain per US gallon"),
    ),
    "per_volume": (
        Unit(1.0e6, "/mL|/ml|cells/mL|cells/ml|CFU/mL|/cm3", SI),
        Unit(1.0e4, "/100 mL|CFU/100 mL|cfu/100 mL|MPN/100 mL|colonies/100 mL|/100mL|CFU/100mL|MPN/100mL", SI),
        Unit(1.0e3, "/L|/l|cells/L|/liter|/litre", SI),
        Unit(1.0, "/m3", SI),
    ),
    "turbidity": (Unit(1.0, "NTU|NTUs|FNU|FNUs", "ours: alike; they differ by method, not by scale"),),
    "density": (Unit(POUND / FOOT**3, "pcf", ARITHMETIC),),
    "voltage": (
        Unit(1.0, "V|volt|volts|VAC|VDC|V AC|V DC|volts AC|volts DC", SI),
        Unit(1.0e-3, "mV|millivolt|millivolts", SI),
        Unit(1.0e3, "kV|kilovolt|kilovolts", SI),
    ),
    "current": (
        Unit(1.0, "A|amp|amps|ampere|amperes", SI),
        Unit(1.0e-3, "mA|milliamp|milliamps|milliampere|milliamperes", SI),
    ),
    "resistance": (Unit(1.0, "ohm|ohms", SI), Unit(1.0e-3, "mohm|milliohm|milliohms", SI)),
    "resistance_per_length": (Unit(1.0e-3 / FOOT, "ohm/kft|ohms/kft", ARITHMETIC),),
    "frequency": (
        Unit(1.0, "Hz|hertz|/s|/sec|/second|cycles/s|cps", SI),
        Unit(1.0 / 60.0, "/min|/minute|starts/min|starts/minute|times/minute", SI),
        Unit(1.0 / 3600.0, "/hour|/h|/hr|starts/hour|starts/h|starts/hr|times/hour|an hour|starts an hour", SI),
        Unit(1.0 / 86400.0, "/day|/d|starts/day|starts/d|times/day|a day|starts a day", SI),
    ),
    "speed_of_rotation": (
        Unit(2.0 * math.pi / 60.0, "rpm|RPM|rev/min|r/min|revs/min", f"{SP811}: 2 pi/60"),
        Unit(1.0, "rad/s|rad/sec|radians/second", SI),
    ),
    "strength": (
        Unit(POUND_FORCE / INCH**2, "psi|lb/in2|lbf/in2|lb/sq in", f"{SP811}: lbf/in2"),
        Unit(1.0e3 * POUND_FORCE / INCH**2, "ksi", f"{SP811}: 1000 psi"),
        Unit(POUND_FORCE / FOOT**2, "psf|lb/ft2|lbf/ft2|lb/sq ft", f"{SP811}: lbf/ft2"),
        Unit(1.0, "Pa|pascal|pascals", SI),
        Unit(1.0e3, "kPa|kilopascal|kilopascals|kN/m2", SI),
        Unit(1.0e6, "MPa|megapascal|megapascals|N/mm2", SI),
        Unit(1.0e9, "GPa|gigapascal|gigapascals", SI),
    ),
    "force": (
        Unit(
            POUND_FORCE,
            "lbf|lb|lbs|pound|pounds|lb force|pounds force",
            f"{SP811}: the pound at 9.80665 m/s2",
        ),
        Unit(1.0, "N|newton|newtons", SI),
        Unit(1.0e3, "kN|kilonewton|kilonewtons", SI),
        Unit(GRAVITY, "kgf", f"{SP811}, exact"),
    ),
    "per_length": (),
    "money": (
        Unit(100.0, "$|dollar|dollars", "100 cents"),
        Unit(1.0, "cents|cent", "the cent, in which money is kept"),
    ),
    "count": (Unit(1.0, "", "a plain number"),),
}

# A unit of such a dimension may be one over another: the dimension above, the one below, and a factor.
OVER: dict[str, tuple[tuple[str, str, float], ...]] = {
    "speed": (("length", "time", 1.0),),
    "flow": (("volume", "time", 1.0),),
    "slope": (("length", "length", 1.0),),
    "dose": (("energy", "area", 1.0),),
    "concentration": (("mass", "volume", 1.0),),
    "density": (("mass", "volume", 1.0),),
    "resistance_per_length": (("resistance", "length", 1.0),),
    "mass_per_length": (("mass", "length", 1.0),),
    "volume_per_time_per_area": (("flow", "area", 1.0), ("length", "time", 1.0)),
    "per_length": (("count", "length", 1.0),),
    "money_per_length": (("money", "length", 0.01),),
    "money_per_time": (("money", "time", 0.01),),
}

NOUNS: dict[str, Noun] = {
    "length": Noun("a length", "m", "12 ft", "3.5 m", "ft, in, yd, mi, mm, cm, m or km"),
    "area": Noun("an area", "m2", "2 ac", "0.8 ha", "ft2, in2, ac, cm2, m2 or ha"),
    "volume": Noun("a volume", "m3", "62 gal", "240 L", "gal (US), imp gal, qt, ft3, acre-ft, mL, L or m3"),
    "mass": Noun("a mass", "kg", "20 lb", "9 kg", "lb, short ton, g, kg or tonne"),
    "time": Noun("a time", "s", "30 min", "90 s", "s, min, h, days, weeks or years"),
    "speed": Noun("a speed", "m/s", "2 ft/s", "0.6 m/s", "ft/s, ft/min, mph, m/s, km/h or knots"),
    "flow": Noun("a flow", "m3/s", "8 gpm", "0.5 L/s", "gpm, gph, gpd, cfs, imp gpm, L/s, L/min, m3/h or m3/d"),
    "pressure": Noun(
        "a gauge pressure",
        "Pa",
        "30 psi",
        "200 kPa",
        'psi, kPa, bar, ft of water, m of water or "inHg vacuum"',
    ),
    "pressure_absolute": Noun(
        "an absolute pressure", "Pa", "14.2 psia", "98 kPa abs", "psia, inHg abs, hPa, kPa or bar"
    ),
    "pressure_difference": Noun(
        "a pressure difference", "Pa", "10 psi", "70 kPa", "psi, inHg, ft of water, kPa or bar"
    ),
    "head": Noun("a head of water", "m", "150 ft", "45 m", "ft, m, psi or kPa"),
    "temperature": Noun("a temperature", "K", "58 F", "14 C", "F, C or K"),
    "temperature_difference": Noun("a difference of temperature", "K", "10 F", "5 C", "F, C or K"),
    "power": Noun("a power", "W", "0.75 hp", "550 W", "hp, W or kW"),
    "energy": Noun("an energy", "J", "2 kWh", "7 MJ", "kWh, J, kJ or MJ"),
    "degree_days": Noun("a sum of degree-days", "K s", "1800 F days", "1000 C days", "F days or C days"),
    "dose": Noun("a UV dose", "J/m2", "40 mJ/cm2", "400 J/m2", "mJ/cm2 or J/m2"),
    "angle": Noun("an angle", "rad", "235 degrees", "235 degrees", "degrees or rad"),
    "slope": Noun("a slope", "", "1/4 in/ft", "2 %", "in/ft, ft/ft, m/m or %"),
    "share": Noun("a share of the whole", "", "50 %", "0.5", "% or a plain number", bare=True),
    "concentration": Noun("a concentration", "kg/m3", "2 mg/L", "2 mg/L", "mg/L, ug/L, ppm or ppb"),
    "per_volume": Noun("a number per volume", "1/m3", "20 per 100 mL", "20 per 100 mL", "per 100 mL, per mL or per L"),
    "turbidity": Noun("a turbidity", "NTU", "5 NTU", "5 NTU", "NTU"),
    "density": Noun("a density", "kg/m3", "62.4 lb/ft3", "999 kg/m3", "lb/ft3, kg/m3 or g/cm3"),
    "voltage": Noun("a voltage", "V", "230 V", "230 V", "V"),
    "current": Noun("a current", "A", "20 A", "20 A", "A"),
    "resistance": Noun("a resistance", "ohm", "0.5 ohm", "0.5 ohm", "ohm"),
    "resistance_per_length": Noun(
        "a resistance per length", "ohm/m", "1.6 ohm/1000 ft", "5.2 ohm/km", "ohm/1000 ft or ohm/km"
    ),
    "frequency": Noun("a rate", "Hz", "15 per hour", "60 Hz", "per hour, per minute, per day or Hz"),
    "speed_of_rotation": Noun("a speed of rotation", "rad/s", "3450 rpm", "3450 rpm", "rpm or rad/s"),
    "strength": Noun("a strength or stiffness", "Pa", "300 psi", "2 MPa", "psi, psf, kPa, MPa or GPa"),
    "force": Noun("a force", "N", "50 lbf", "220 N", "lbf, N or kN"),
    "mass_per_length": Noun("a mass per length", "kg/m", "0.4 lb/ft", "0.6 kg/m", "lb/ft, lb/100 ft or kg/m"),
    "volume_per_time_per_area": Noun(
        "a rate over an area", "m/s", "1 in/day", "25 mm/d", "in/day, gpm/ft2, mm/d or m/h"
    ),
    "per_length": Noun("a number per length", "1/m", "0.12 per ft", "0.4 per m", "per ft or per m"),
    "money": Noun("an amount of money", "cent", "$12.50", "$12.50", "dollars, as $12.50"),
    "money_per_length": Noun("a price per length", "$/m", "$1.20/ft", "$4/m", "dollars a length, as $1.20/ft"),
    "money_per_time": Noun("a price per time", "$/s", "$85/hour", "$85/hour", "dollars a time, as $85/hour"),
    "count": Noun("a plain number", "", "3", "3", "digits, without a unit", bare=True),
}

TON = ("a short ton of 2000 lb or a tonne of 1000 kg", "write short ton, tonne, lb or kg")
OUNCE = ("an ounce of weight or a fluid ounce", "write lb for weight, fl oz or qt for volume")
DEGREES = ("Fahrenheit or Celsius", "write F or C")
DEGREE_DAYS = ("Fahrenheit days or Celsius days", "write F days or C days")
COLUMN = ("a height of water or a length", "write ft of water, m of water, psi or kPa")
# Spellings that read two ways: the dimensions (all where empty), the spellings in capitals
# or not, both readings, what to write.
TWO_READINGS: tuple[tuple[str, str, tuple[str, str]], ...] = (
    ("time", "m", ("minutes or months", "write min for minutes, days for longer")),
    ("", "ton|tons|t", TON),
    ("", "oz|ounce|ounces", OUNCE),
    ("temperature|temperature_difference", "deg|degs|degree|degrees", DEGREES),
    ("degree_days", "degree days|degree day|deg days|degree d|deg d|FDD|days|day|d", DEGREE_DAYS),
    ("", "mil|mils", ("a thousandth of an inch or a millimeter", "write in or mm")),
    ("", "pt|pts", ("pints or points", "write qt, gal or L")),
    ("", "pint|pints", ("a US pint or an imperial pint", "write qt, gal or L")),
    ("", "bbl|barrel|barrels", ("a barrel of 31.5 gal or of 42 gal", "write gal or m3")),
    ("", "Btu|BTUs", ("the International Table Btu or the thermochemical Btu", "write kWh, kJ or MJ")),
    (
        "pressure|pressure_absolute|pressure_difference|strength",
        "lb|lbs|pound|pounds",
        ("pounds per square inch or pounds of force", "write psi"),
    ),
    ("pressure|pressure_absolute|pressure_difference", "ft|feet|foot|m|meters|metres", COLUMN),
    (
        "pressure",
        "inHg|mmHg",
        ("a vacuum or a pressure above the air's", "write inHg vacuum if it is suction, psi if not"),
    ),
    (
        "pressure_absolute",
        "psi|ft of water|in of water|m of water|cm of water|mm of water",
        ("gauge or absolute", "write psia, or kPa abs"),
    ),
    ("pressure_absolute", "inHg|mmHg", ("a vacuum or an absolute pressure", "write inHg abs, or kPa abs")),
)

# Places are ours: what can be read off a tape, a gauge or a bill, and no finer.
KINDS: dict[str, Kind] = {
    "depth": Kind("length", "ft", 1, "m", 2),
    "part": Kind("length", "in", 0, "mm", 0, fraction=16),
    "length": Kind("length", "ft", 0, "m", 1),
    "height": Kind("length", "ft", 1, "m", 2, signed=True),
    "elevation": Kind("length", "ft", 0, "m", 0),
    "head": Kind("head", "ft", 1, "m", 2),
    "lift": Kind("length", "ft", 1, "m", 1),
    "bore": Kind("length", "in", 3, "mm", 1),
    "roughness": Kind("length", "in", 5, "mm", 4),
    "area": Kind("area", "ft2", 1, "m2", 2),
    "land": Kind("area", "ac", 1, "ha", 1),
    "screen_area": Kind("area", "in2", 0, "cm2", 0),
    "volume": Kind("volume", "gal", 1, "L", 0),
    "mass": Kind("mass", "lb", 0, "kg", 1),
    "mass_per_length": Kind("mass_per_length", "lb/ft", 2, "kg/m", 2),
    "time": Kind("time", "s", 0, "s", 0),
    "minutes": Kind("time", "min", 1, "min", 1),
    "hours": Kind("time", "h", 1, "h", 1),
    "days": Kind("time", "days", 0, "days", 0),
    "years": Kind("time", "years", 0, "years", 0),
    "speed": Kind("speed", "ft/s", 1, "m/s", 2),
    "face_speed": Kind("speed", "ft/s", 2, "m/s", 3),
    "wind": Kind("speed", "mph", 0, "km/h", 0),
    "flow": Kind("flow", "gpm", 1, "L/s", 2),
    "daily_flow": Kind("flow", "gal/day", 0, "L/day", 0),
    "gauge": Kind("pressure", "psi", 0, "kPa", 0),
    "absolute": Kind("pressure_absolute", "psia", 1, "kPa abs", 1),
    "pressure_difference": Kind("pressure_difference", "psi", 1, "kPa", 1),
    "vacuum": Kind("pressure_difference", "inHg", 1, "kPa", 1),
    "temperature": Kind("temperature", "F", 0, "C", 1),
    "temperature_difference": Kind("temperature_difference", "F", 0, "C", 1),
    "power": Kind("power", "hp", 2, "W", 0),
    "energy": Kind("energy", "kWh", 1, "kWh", 1),
    "degree_days": Kind("degree_days", "F days", 0, "C days", 0),
    "dose": Kind("dose", "mJ/cm2", 0, "mJ/cm2", 0),
    "angle": Kind("angle", "degrees", 0, "degrees", 0),
    "slope": Kind("slope", "in/ft", 2, "%", 1),
    "share": Kind("share", "%", 1, "%", 1, trimmed=True),
    "concentration": Kind("concentration", "mg/L", 2, "mg/L", 2),
    "per_volume": Kind("per_volume", "per 100 mL", 0, "per 100 mL", 0),
    "turbidity": Kind("turbidity", "NTU", 1, "NTU", 1),
    "density": Kind("density", "lb/ft3", 1, "kg/m3", 0),
    "voltage": Kind("voltage", "V", 0, "V", 0),
    "current": Kind("current", "A", 1, "A", 1),
    "resistance_per_length": Kind("resistance_per_length", "ohm/1000 ft", 3, "ohm/km", 3),
    "frequency": Kind("frequency", "Hz", 0, "Hz", 0),
    "starts": Kind("frequency", "per hour", 1, "per hour", 1),
    "rotation": Kind("speed_of_rotation", "rpm", 0, "rpm", 0),
    "strength": Kind("strength", "psi", 0, "kPa", 0),
    "modulus": Kind("strength", "psi", 0, "MPa", 0),
    "force": Kind("force", "lbf", 0, "N", 0),
    "application": Kind("volume_per_time_per_area", "in/day", 2, "mm/day", 1),
    "filter_rate": Kind("volume_per_time_per_area", "gpm/ft2", 1, "m/h", 1),
    "per_length": Kind("per_length", "per ft", 3, "per m", 3),
    "money": Kind("money", "$", 2, "$", 2),
    "money_per_length": Kind("money_per_length", "$/ft", 2, "$/m", 2),
    "money_per_time": Kind("money_per_time", "$/hour", 2, "$/hour", 2),
    "count": Kind("count", "", 2, "", 2, trimmed=True),
}

# What a keyboard, a phone or a pasted catalogue puts where this file has a plain letter.
PLAIN = str.maketrans(
    {
        **dict.fromkeys("\u00a0\u2007\u2009\u202f\u2002\u2003", " "),
        **dict.fromkeys("\u2212\u2010\u2011\u2013\u2014", "-"),
        **dict.fromkeys("\u2032\u2019\u2018", "'"),
        **dict.fromkeys("\u2033\u201d\u201c", '"'),
        **dict.fromkeys("\u00b5\u03bc", "u"),
        **dict.fromkeys("\u00b7\u22c5", " "),
        **dict.fromkeys("\u00b0\u00ba", " deg"),
        **dict.fromkeys("\u2126\u03a9", "ohm"),
        "\u00d7": "x",
        "\u00b2": "^2",
        "\u00b3": "^3",
        "\u00b1": "+-",
        "\u2026": "..",
        "\u2044": "/",
        "\u00bd": " 1/2",
        "\u00bc": " 1/4",
        "\u00be": " 3/4",
        "\u215b": " 1/8",
        "\u215c": " 3/8",
        "\u215d": " 5/8",
        "\u215e": " 7/8",
    }
)
SMALLER = {FOOT: INCH, 86400.0: 3600.0, 3600.0: 60.0, 60.0: 1.0}  # what may follow a unit, as in 12 ft 6 in


class _Problem(Exception):
    """A fault inside a quantity, before the whole of the text is at hand to name it."""

    def __init__(self, remark: str, remedy: str) -> None:
        super().__init__(remark)
        self.remark = remark
        self.remedy = remedy


class _Written(NamedTuple):
    """One end of a quantity: its number with the sign, and its unit, tidied."""

    number: float
    unit: str


class _Read(NamedTuple):
    """The same in SI. `size` leaves out a temperature's offset; `downward` counts below the air's."""

    value: float
    size: float
    downward: bool


def read(text: str, dimension: str) -> float:
    """One number in SI from text; raises UnitError.

    >>> round(read("12 ft 6-1/2 in", "length"), 4)
    3.8227
    """
    try:
        plain = _plain(text)
        if ".." in plain or "+-" in plain:
            raise _Problem(", which is more than one number", "write one value, without .. or +-")
        return _si(_written(plain, dimension), dimension).value
    except _Problem as problem:
        _refuse(text, dimension, problem)


def read_amount(text: str, dimension: str) -> Amount:
    """A quantity in SI: known ("12 ft"), between ("10..14 ft") or within ("12 +- 1 ft"); raises UnitError."""
    try:
        plain = _plain(text)
        if ".." in plain:
            return _read_range(plain, dimension)
        if "+-" in plain:
            return _read_spread(plain, dimension)
        value = _si(_written(plain, dimension), dimension).value
    except _Problem as problem:
        _refuse(text, dimension, problem)
    return Amount(value, value, value, 0.0)


def show(value: float, kind: str, system: str) -> str:
    """A number in SI as the trade writes it, with its unit; "unknown" for nan, "no limit" for infinity.

    Rounds to the kind's places, a half away from zero, and never shows a minus before nothing.

    >>> show(0.3175, "part", "US"), show(0.3175, "part", "SI")
    ('12-1/2 in', '318 mm')
    """
    shown = figure(value, kind, system)
    unit = unit_of(kind, system)
    if not unit or not math.isfinite(value):
        return shown
    return f"{shown}{unit}" if unit.startswith("/") else f"{shown} {unit}"


def figure(value: float, kind: str, system: str) -> str:
    """The number of `show` without its unit."""
    how = KINDS[kind]
    if math.isnan(value):
        return "unknown"
    if math.isinf(value):
        return "no limit"
    places = how.si_places if system == "SI" else how.us_places
    scale = _shown_unit(kind, system)
    number = (value - scale.offset) / scale.factor
    if how.fraction and system != "SI":
        return _in_fractions(number, how.fraction)
    digits = _rounded(abs(number), places)
    nothing = not digits.strip("0.")
    if how.trimmed and "." in digits:
        digits = digits.rstrip("0").rstrip(".")
    if how.dimension.startswith("money"):
        whole, _, rest = digits.partition(".")
        digits = f"${int(whole):,}.{rest}"
    sign = "" if nothing else "-" if number < 0.0 else "+" if how.signed else ""
    return f"{sign}{digits}"


def unit_of(kind: str, system: str) -> str:
    """The unit of `show` without its number; empty for money and plain numbers."""
    how = KINDS[kind]
    unit = how.si_unit if system == "SI" else how.us_unit
    return unit.removeprefix("$")


def _rounded(size: float, places: int) -> str:
    """A number of no sign as digits, a half rounded up."""
    if size >= LARGEST:
        return f"{size:.{places}f}"
    # ours: a unit's factor leaves dust under a half, as 317.49999999999994 for 317.5; a billionth lifts it.
    steps = math.floor(size * 10.0**places + 0.5 + 1.0e-9)
    whole, rest = divmod(steps, 10**places)
    return f"{whole}.{rest:0{places}d}" if places else str(whole)


def _in_fractions(number: float, denominator: int) -> str:
    """A number with a fraction in lowest terms, as 12-1/2."""
    steps = int(_rounded(abs(number) * denominator, 0))
    whole, rest = divmod(steps, denominator)
    common = math.gcd(rest, denominator)
    fraction = f"{rest // common}/{denominator // common}" if rest else ""
    sign = "-" if number < 0.0 and steps else ""
    return sign + (f"{whole}-{fraction}" if whole and fraction else fraction or str(whole))


@functools.cache
def _shown_unit(kind: str, system: str) -> Unit:
    how = KINDS[kind]
    unit = _unit(how.dimension, _tidy(how.si_unit if system == "SI" else how.us_unit))
    if unit is None:
        raise KeyError(kind)
    return unit


def _plain(text: str) -> str:
    if len(text) > LONGEST:
        raise _Problem(f", {len(text)} letters long", f"write at most {LONGEST} letters")
    plain = text.translate(PLAIN).replace("+/-", "+-").replace("''", '"')
    return " ".join(plain.split())


def _read_range(plain: str, dimension: str) -> Amount:
    left, _, right = (side.strip() for side in plain.partition(".."))
    if "..." in plain:
        raise _Problem(", with three points", "write two points between the ends, as 10..14")
    if ".." in right or "+-" in plain:
        raise _Problem(", which has more than one range or spread", "write 10..14 or 12 +- 1, not both")
    if not left or not right:
        raise _Problem(", a range with one end", "write both ends, as 10..14")
    first, last = _two(left, right, dimension)
    low, high = _si(first, dimension), _si(last, dimension)
    if low.downward and high.downward:  # written without a sign, the deeper vacuum comes last
        low, high = high, low
    if low.value > high.value:
        raise _Problem(", a range from the larger to the smaller", "write the smaller end first")
    middle = low.value if low.value == high.value else 0.5 * (low.value + high.value)
    if dimension == "money":
        middle = float(round(middle))  # ours: of two cents that share a middle, the even one
    return Amount(middle, low.value, high.value, 0.0)


def _read_spread(plain: str, dimension: str) -> Amount:
    left, _, right = (side.strip() for side in plain.partition("+-"))
    if "+-" in right:
        raise _Problem(", which has more than one spread", "write one spread, as 12 +- 1")
    if not left or not right:
        raise _Problem(", a spread with one side", "write both the value and its spread, as 12 +- 1")
    if right[0] in "+-":
        raise _Problem(", a spread with a sign", "write the spread without a sign")
    if right.endswith("%") and dimension not in ("share", "slope"):
        if dimension == "temperature":
            raise _Problem(", a percentage of a temperature", "write the spread in F, C or K")
        value = _si(_written(left, dimension), dimension).value
        spread = abs(value) * _si(_written(right, "share"), "share").value
    else:
        middle, beside = _two(left, right, dimension)
        value = _si(middle, dimension).value
        spread = abs(_si(beside, dimension).size)
    return Amount(value, value - spread, value + spread, spread)


def _two(left: str, right: str, dimension: str) -> tuple[_Written, _Written]:
    """Both ends of a range or spread; a unit written once, at the end, is the unit of both."""
    first, last = _written(left, dimension), _written(right, dimension)
    if first.unit == "$" and last.unit.startswith("/"):
        first, last = first._replace(unit=f"${last.unit}"), last._replace(unit=f"${last.unit}")
    elif first.unit == "$" and not last.unit:
        last = last._replace(unit="$")
    elif first.unit and not last.unit:
        raise _Problem(", whose second number has no unit", "write the unit at the end, or after both")
    elif not first.unit and last.unit:
        if _unit(dimension, last.unit) is None and _compound(last, dimension) is not None:
            raise _Problem(", whose first number has no unit", "write the unit after both")
        first = first._replace(unit=last.unit)
    return first, last


FRACTION = re.compile(r"(?:([0-9]+)(?: | ?- ?))?([0-9]+) ?/ ?([0-9]+)(?![0-9.,]| ?/ ?[0-9])")
DIGITS = re.compile(r"[0-9][0-9.,]*")
DECIMAL = re.compile(r"(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE]([+-]?[0-9]+))?")
CLEAR_THOUSANDS = re.compile(r"[1-9][0-9]{0,2}(?:(?:,[0-9]{3}){2,}|(?:,[0-9]{3})+\.[0-9]+)")
TWO_WAYS = re.compile(r"[1-9][0-9]{0,2},[0-9]{3}")


def _written(side: str, dimension: str) -> _Written:
    """The number at the head of some text, and the unit after it."""
    money = dimension.startswith("money")
    if "$" in side and not money:
        raise _Problem(", an amount of money", f"write it in {NOUNS[dimension].offered}")
    dollar = side.count("$") == 1
    if dollar:
        side = side.replace("$", " ").strip()
    sign = -1.0 if side[:1] == "-" else 1.0
    digits = side[1:].lstrip() if side[:1] in ("-", "+") else side
    number, rest = _number(digits, dimension)
    unit = _tidy(rest)
    if dollar and (not unit or unit.startswith("/")):
        unit = f"${unit}"
    return _Written(sign * number, unit)


def _number(text: str, dimension: str) -> tuple[float, str]:
    if not text:
        raise _Problem(", where a number is missing", "write the number, then the unit")
    # 20/100 mL is a count per volume, not a fifth of a milliliter.
    if dimension != "per_volume" and (found := FRACTION.match(text)):
        whole, above, below = (float(part or 0) for part in found.groups())
        if not below:
            raise _Problem(", which divides by nothing", "write a fraction such as 1/2")
        if found[1] and above >= below:
            raise _Problem(", whose fraction is not less than one", "write it as 12-1/2")
        number, rest = whole + above / below, text[found.end() :]
    else:
        chunk = DIGITS.match(text)
        digits = chunk[0] if chunk else ""
        text = _without_commas(digits, dimension) + text[len(digits) :]
        found = DECIMAL.match(text)
        if not found:
            raise _Problem(", which does not begin with a number", "write the number, then the unit")
        # A long exponent is no use, and float would take its time.
        number, rest = float(found[0]) if len(found[1] or "") < 6 else math.inf, text[found.end() :]
    if not number <= LARGEST:
        raise _Problem(", a number past any use", "check the digits")
    _check_rest(rest)
    return number, rest


def _without_commas(digits: str, dimension: str) -> str:
    """A number's digits without the commas between thousands, where they can be nothing else."""
    if "," not in digits or CLEAR_THOUSANDS.fullmatch(digits) or (dimension == "money" and TWO_WAYS.fullmatch(digits)):
        return digits.replace(",", "")
    point, none = digits.replace(",", "."), digits.replace(",", "")
    if TWO_WAYS.fullmatch(digits):
        raise _Problem(f", whose comma reads two ways: {none} or {point}", f"write {none} or {point}")
    if re.fullmatch(r"[0-9]+,[0-9]+", digits):
        raise _Problem(", with a comma for the decimal point", f"write a point: {point}")
    raise _Problem(", whose commas and points do not make a number", "write one point, as 1340.5")


def _check_rest(rest: str) -> None:
    """What stands behind a number is a unit, not more digits."""
    if re.match(r"[.,]", rest):
        raise _Problem(", whose commas and points do not make a number", "write one point, as 1340.5")
    if re.match(r" ?- ?[0-9.]", rest):
        raise _Problem(", two numbers with a dash between", "write a range as 10..14, a fraction as 12-1/2")
    if re.match(r" ?/ ?[0-9]", rest) and not re.match(r" ?/ ?10* ?[A-Za-z]", rest):
        raise _Problem(", whose slashes do not make a fraction", "write 12-1/2 or 12.5")
    if re.match(r" [0-9]{3}(?![0-9])", rest):
        raise _Problem(", a number with a space in it", "write the digits without spaces, as 1340")
    if re.match(r" ?[0-9]", rest) and not re.match(r" ?1/[A-Za-z]", rest):
        raise _Problem(", two numbers side by side", "write 12.5, 12-1/2 or 12 ft 5 in")
    if rest.startswith(":"):
        raise _Problem(", a ratio that reads as rise to run or run to rise", "write a percentage, or in/ft")


def _tidy(unit: str) -> str:
    """A unit as the tables spell it: no points, carets or dashes, single spaces, a slash for per."""
    unit = re.sub(r"(?<=[A-Za-z])\.(?![A-Za-z0-9])", "", unit.replace("U.S.", "US")).replace("^", "").replace("**", "")
    unit = re.sub(r" ?(?:/|\bper\b) ?", "/", unit)
    unit = " ".join(re.sub(r"-", " ", unit).split())
    unit = re.sub(r"\bdeg(?:ree)?s? ?(?=(?i:[fck]|fahrenheit|celsius|centigrade|kelvin)\b)", "", unit)
    return f"/{unit[2:]}" if unit.startswith("1/") else unit


@functools.cache
def _spellings(dimension: str) -> tuple[dict[str, Unit], dict[str, str]]:
    """The units of one dimension by spelling; spellings by small letters, "a or b" where two units meet."""
    exact: dict[str, Unit] = {}
    for unit in UNITS.get(dimension, ()):
        exact.update(dict.fromkeys(unit.spellings.split("|"), unit))
    small: dict[str, str] = {}
    for spelling, unit in exact.items():
        other = small.get(spelling.lower(), spelling)
        small[spelling.lower()] = spelling if exact[other] is unit else f"{other} or {spelling}"
    return exact, small


def _unit(dimension: str, text: str) -> Unit | None:
    """The unit of a dimension that some tidied text spells; None where it spells none."""
    if dimension in ("pressure", "pressure_absolute"):
        return _pressure(dimension, text)
    if dimension == "pressure_difference":
        text = re.sub(r" ?(?:vacuum|vac)$", "", text)
    exact, small = _spellings(dimension)
    if text in exact:
        return exact[text]
    _refuse_two_readings(dimension, text)
    if text.lower() in small:
        spelling = small[text.lower()]
        capitals = {text[0], spelling[0]} == {"m", "M"} and spelling[1:] in exact and text != text.lower()
        if spelling not in exact or capitals:
            raise _Problem(f', where "{text}" may be milli- or mega-', f"write {spelling} if that is meant")
        return exact[spelling]
    if dimension == "head":
        return _head(text)
    return _power_of_length(dimension, text) or _over(dimension, text)


def _power_of_length(dimension: str, text: str) -> Unit | None:
    """Square feet, cu in, m3 and their like."""
    power = {"area": 2, "volume": 3}.get(dimension)
    if power is None:
        return None
    before = {2: r"(?:square|sq) ?(.+)", 3: r"(?:cubic|cu) ?(.+)"}[power]
    found = re.fullmatch(before, text, re.IGNORECASE) or re.fullmatch(rf"(.+?){power}", text)
    side = _unit("length", found[1]) if found else None
    return Unit(side.factor**power, text, ARITHMETIC) if side else None


def _over(dimension: str, text: str) -> Unit | None:
    """One unit over another, as L/min; what is below may be counted in tens, as ohm/1000 ft."""
    upper, slash, lower = text.rpartition("/")
    found = re.fullmatch(r"(1|10|100|1000)? ?([^0-9].*)", lower)
    if not slash or not found:
        return None
    for above, below, factor in OVER.get(dimension, ()):
        top, bottom = _unit(above, upper), _unit(below, found[2])
        if top and bottom:
            return Unit(factor * top.factor / (float(found[1] or 1) * bottom.factor), text, ARITHMETIC)
    return None


def _head(text: str) -> Unit | None:
    """A head: a height of water, or a pressure that such a height makes."""
    height = re.sub(r" ?(?:of |of)?(?:water|H2O|h2o|head)$", "", text)
    if unit := _unit("length", height):
        return unit
    unit = _unit("pressure_difference", text)
    return unit and Unit(unit.factor / (WATER_AT_60_F * GRAVITY), text, "water of 999.0 kg/m3, 60 F")


COUNTED_FROM = re.compile(r"(.+?) ?\(?(abs|absolute|gauge|gage|g|a|vacuum|vac)\)?", re.IGNORECASE)


def _pressure(dimension: str, text: str) -> Unit | None:
    """A pressure that says what it counts from, or need not."""
    found = COUNTED_FROM.fullmatch(text)
    unit = _unit("pressure_difference", found[1]) if found else None
    if not found or not unit:  # Pa and inHg end like psia and psig
        _refuse_two_readings(dimension, text)
        unit = _unit("pressure_difference", text)
        if unit:
            _refuse_two_readings(dimension, unit.spellings.partition("|")[0])
        return unit
    counted = found[2].lower()
    if dimension == "pressure" and counted.startswith("a"):
        raise _Problem(", an absolute pressure", "write what a gauge shows, as 30 psi")
    if dimension == "pressure_absolute" and not counted.startswith("a"):
        raise _Problem(", a gauge pressure", "write the absolute pressure, as 14.2 psia or 98 kPa abs")
    return unit._replace(factor=-unit.factor) if counted.startswith("v") else unit


@functools.cache
def _two_readings(dimension: str) -> dict[str, tuple[str, str]]:
    return {
        spelling.lower(): said
        for dimensions, spellings, said in TWO_READINGS
        if not dimensions or dimension in dimensions.split("|")
        for spelling in spellings.split("|")
    }


def _refuse_two_readings(dimension: str, text: str) -> None:
    if said := _two_readings(dimension).get(text.lower()):
        readings, remedy = said
        raise _Problem(f', where "{text}" reads two ways: {readings}', remedy)


def _si(written: _Written, dimension: str) -> _Read:
    """A number with its unit in SI."""
    unit = _unit(dimension, written.unit)
    if unit is not None:
        size = written.number * unit.factor + 0.0  # no negative nothing
        value = size + unit.offset
        downward = unit.factor < 0.0
        if downward and written.number < 0.0:
            raise _Problem(", a vacuum with a minus", "write inHg vacuum without a sign")
    elif (size_of := _compound(written, dimension)) is not None:
        size, value, downward = size_of, size_of, False
    else:
        raise _unknown(written.unit, dimension)
    if dimension == "money":
        value = _whole_cents(value)
    return _Read(value, size, downward)


def _whole_cents(value: float) -> float:
    cents = round(value)
    if abs(value - cents) > 1.0e-6 + 1.0e-15 * abs(value):  # ours: the dust of a decimal times a hundred
        raise _Problem(", a part of a cent", "write dollars and whole cents, as $12.50")
    return float(cents)


COMPOUND = re.compile(r"([A-Za-z]+|')[ ,]*([0-9].*)")


def _compound(written: _Written, dimension: str) -> float | None:
    """12 ft 6 in, 1 h 30 min: the second unit one step below the first, and less than one of it."""
    found = COMPOUND.fullmatch(written.unit)
    larger = _unit(dimension, found[1]) if found else None
    if not found or not larger:
        return None
    # The dash of 6-1/2 was taken for one inside a unit: a space joins a fraction as well.
    number, rest = _number(found[2], dimension)
    if not rest:
        raise _Problem(", whose second number has no unit", "write the unit after both, as 12 ft 6 in")
    smaller = _unit(dimension, _tidy(rest))
    if not smaller or SMALLER.get(larger.factor) != smaller.factor:
        return None
    if number * smaller.factor >= larger.factor or written.number % 1.0:
        raise _Problem(", whose two parts do not add up to one", "write as 12 ft 6 in, or as 12.5 ft")
    return math.copysign(abs(written.number) * larger.factor + number * smaller.factor, written.number)


def _unknown(unit: str, dimension: str) -> _Problem:
    noun = NOUNS[dimension]
    if not unit:
        return _Problem(", a number without a unit", f"add the unit: {noun.offered}")
    remedy = f"write it in {noun.offered}"
    for other in NOUNS:
        try:
            known = other != dimension and _unit(other, unit) is not None
        except _Problem:
            known = False
        if known:
            name = "a pressure" if other.startswith("pressure") else NOUNS[other].name
            return _Problem(f", {name}", remedy)
    return _Problem(f', where "{_echo(unit)}" is no unit known here', remedy)


def _echo(text: str) -> str:
    short = text if len(text) <= LONGEST_ECHO else f"{text[:LONGEST_ECHO]}..."
    return short if short.isprintable() else ascii(short)[1:-1]


def _refuse(text: str, dimension: str, problem: _Problem) -> NoReturn:
    noun = NOUNS[dimension]
    examples = " or ".join(dict.fromkeys((f'"{noun.us_example}"', f'"{noun.si_example}"')))
    wanted = f"{noun.name} such as {examples}"
    raise UnitError(f'"{_echo(text)}"{problem.remark}', wanted, problem.remedy) from None


def reference() -> str:
    """The page of all forms, units and kinds, in Markdown."""
    return "\n".join([REFERENCE_HEAD, *_units_in_words(), *_two_readings_in_words(), *_kinds_in_words(), ""])


REFERENCE_HEAD = """# Units

This page is written from the tables of `lakewright.units`; do not edit it.

A quantity is a number and a unit in one text. The number may be whole, decimal (`12.5`), a fraction (`3/4`,
`12-1/2`, `1 1/2`) or in powers of ten (`1e-3`), with a sign where that makes sense. Feet and inches go
together (`12 ft 6 in`, `12' 6-1/2"`), and so do days and hours, hours and minutes, minutes and seconds.
Commas between thousands are taken where they can be nothing else (`1,340.5`, `12,345,678`); `1,340` is
refused but for money, `0,5` always.

| form | is |
|---|---|
| `12 ft` | known |
| `10..14 ft`, `10 ft..14 ft` | lies between; the middle is used where one number is |
| `12 +- 1 ft`, `12 ft +- 6 in`, `12 ft +- 5 %` | known to within |

A spread of a temperature is a difference. A spread in per cent is of the value; of a share or a slope it is
in points, so `50 +- 5 %` is 45 to 55 %.

Capital letters matter only between milli and mega, where a slip is refused. `per` is a slash, `sq` and `cu`
stand for 2 and 3; degree signs, primes, true fractions and `\u00b1` are read. A gallon and a quart are the US
ones unless `imp` stands before; `F` is always Fahrenheit, `hp` is 550 ft lbf/s. A pressure counts from the
air's unless the field asks an absolute one; `22 inHg vacuum` lies below it. SP 811 is NIST Special
Publication 811 (2008), appendix B.8.
"""


def _code(spelling: str) -> str:
    return f"`{spelling}`" if spelling else "none"


def _units_in_words() -> list[str]:
    lines = ["## Units by dimension"]
    for dimension, noun in NOUNS.items():
        examples = " or ".join(dict.fromkeys((_code(noun.us_example), _code(noun.si_example))))
        inside = {"": "a plain number"}.get(noun.si_unit, noun.si_unit)
        lines += [
            "",
            f"### {dimension}",
            "",
            f"{noun.name.capitalize()}, such as {examples}; inside: {inside}.",
        ]
        lines += [f"Also {_FROM[dimension]}."] if dimension in _FROM else []
        lines += [
            f"Also any {above.replace('_', ' ')} over any {below}." if above != "count" else f"One over any {below}."
            for above, below, _ in OVER.get(dimension, ())
        ]
        units = UNITS.get(dimension, ())
        if units:
            lines += ["", "| unit | also | inside | origin |", "|---|---|---|---|"]
        for unit in units:
            first, *others = map(_code, unit.spellings.split("|"))
            inside = f"{unit.factor:.10g}" + (f", and {unit.offset:.10g} more" if unit.offset else "")
            lines.append(f"| {first} | {', '.join(others)} | {inside} | {unit.origin} |")
    return lines


_FROM = {
    "area": "any length squared (`ft2`, `sq in`, `square metres`)",
    "volume": "any length cubed (`ft3`, `cu yd`, `m3`)",
    "pressure": "any pressure difference; with `vacuum` behind it, below the air's pressure",
    "pressure_absolute": "any pressure difference with `a` or `abs` behind it; Pa, bar, atm as they are",
    "head": "any length, and any pressure difference, as water of 999.0 kg/m3 (60 F)",
}


def _two_readings_in_words() -> list[str]:
    lines = [
        "",
        "## Refused, because they read two ways",
        "",
        "| spelling | in | may be | instead |",
        "|---|---|---|---|",
    ]
    for dimensions, spellings, (readings, remedy) in TWO_READINGS:
        where = dimensions.replace("_", " ").replace("|", ", ") or "any"
        lines.append(f"| {', '.join(map(_code, spellings.split('|')))} | {where} | {readings} | {remedy} |")
    return lines


def _kinds_in_words() -> list[str]:
    lines = [
        "",
        "## Kinds: how a number is shown",
        "",
        "A half is rounded away from zero. nan is shown as `unknown`, infinity as `no limit`.",
        "",
        "| kind | of | US | SI |",
        "|---|---|---|---|",
    ]
    for name, kind in KINDS.items():
        example = _EXAMPLES.get(kind.dimension, 12.5 * _shown_unit(name, "US").factor)
        shown = (_code(show(example, name, system)) for system in ("US", "SI"))
        lines.append(f"| {name} | {kind.dimension.replace('_', ' ')} | {' | '.join(shown)} |")
    return lines


_EXAMPLES = {"temperature": 287.5, "slope": 0.02, "share": 0.5, "strength": 2.0e6}  # spellings, not data
