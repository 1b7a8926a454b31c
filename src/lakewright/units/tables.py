"""Every spelling of every unit."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import NamedTuple

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
