"""Text in: quantities as people write them. A spelling that reads two ways is refused with both readings."""

from __future__ import annotations

import functools
import math
import re
from typing import NamedTuple, NoReturn

from lakewright.errors import UnitError
from lakewright.units.tables import (
    ARITHMETIC,
    FOOT,
    GRAVITY,
    INCH,
    LARGEST,
    LONGEST,
    LONGEST_ECHO,
    NOUNS,
    OVER,
    TWO_READINGS,
    UNITS,
    WATER_AT_60_F,
    Amount,
    Unit,
)

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
        if unit_named(dimension, last.unit) is None and _compound(last, dimension) is not None:
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
    unit = tidy(rest)
    if dollar and (not unit or unit.startswith("/")):
        unit = f"${unit}"
    return _Written(sign * number, unit)


# A switch is spoken of as 30/50, and no pressure or flow is given in fiftieths.
SWITCHES = ("pressure", "pressure_absolute", "pressure_difference", "flow")
RULER = (2.0, 3.0, 4.0, 8.0, 16.0, 32.0, 64.0)


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
        if dimension in SWITCHES and below not in RULER:
            raise _Problem(", which reads as a fraction", "write the two settings of a switch as two values")
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


def tidy(unit: str) -> str:
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


def unit_named(dimension: str, text: str) -> Unit | None:
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
    side = unit_named("length", found[1]) if found else None
    return Unit(side.factor**power, text, ARITHMETIC) if side else None


def _over(dimension: str, text: str) -> Unit | None:
    """One unit over another, as L/min; what is below may be counted in tens, as ohm/1000 ft."""
    upper, slash, lower = text.rpartition("/")
    found = re.fullmatch(r"(1|10|100|1000)? ?([^0-9].*)", lower)
    if not slash or not found:
        return None
    for above, below, factor in OVER.get(dimension, ()):
        top, bottom = unit_named(above, upper), unit_named(below, found[2])
        if top and bottom:
            return Unit(factor * top.factor / (float(found[1] or 1) * bottom.factor), text, ARITHMETIC)
    return None


def _head(text: str) -> Unit | None:
    """A head: a height of water, or a pressure that such a height makes."""
    height = re.sub(r" ?(?:of |of)?(?:water|H2O|h2o|head)$", "", text)
    if unit := unit_named("length", height):
        return unit
    unit = unit_named("pressure_difference", text)
    return unit and Unit(unit.factor / (WATER_AT_60_F * GRAVITY), text, "water of 999.0 kg/m3, 60 F")


COUNTED_FROM = re.compile(r"(.+?) ?\(?(abs|absolute|gauge|gage|g|a|vacuum|vac)\)?", re.IGNORECASE)


def _pressure(dimension: str, text: str) -> Unit | None:
    """A pressure that says what it counts from, or need not."""
    found = COUNTED_FROM.fullmatch(text)
    unit = unit_named("pressure_difference", found[1]) if found else None
    if not found or not unit:  # Pa and inHg end like psia and psig
        _refuse_two_readings(dimension, text)
        unit = unit_named("pressure_difference", text)
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
    unit = unit_named(dimension, written.unit)
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
    larger = unit_named(dimension, found[1]) if found else None
    if not found or not larger:
        return None
    # The dash of 6-1/2 was taken for one inside a unit: a space joins a fraction as well.
    number, rest = _number(found[2], dimension)
    if not rest:
        raise _Problem(", whose second number has no unit", "write the unit after both, as 12 ft 6 in")
    smaller = unit_named(dimension, tidy(rest))
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
            known = other != dimension and unit_named(other, unit) is not None
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
