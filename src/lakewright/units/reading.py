"""Text in: quantities as people write them. A spelling that reads two ways is refused with both readings."""

from __future__ import annotations

import functools
import math
import re
from typing import NamedTuple, NoReturn

from lakewright.errors import UnitError
from lakewright.units.spelling import Problem, tidy, unit_named
from lakewright.units.tables import FOOT, INCH, LARGEST, LONGEST, LONGEST_ECHO, NOUNS, Amount

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
            raise Problem(", which is more than one number", "write one value, without .. or +-")
        return _si(_written(plain, dimension), dimension).value
    except Problem as problem:
        _refuse(text, dimension, problem)


@functools.lru_cache(maxsize=1024)
def read_amount(text: str, dimension: str) -> Amount:
    """A quantity in SI: known ("12 ft"), between ("10..14 ft") or within ("12 +- 1 ft"); raises UnitError.

    A job file has a hundred, and an edit changes one: those lately read are remembered.
    """
    try:
        plain = _plain(text)
        if ".." in plain:
            return _read_range(plain, dimension)
        if "+-" in plain:
            return _read_spread(plain, dimension)
        value = _si(_written(plain, dimension), dimension).value
    except Problem as problem:
        _refuse(text, dimension, problem)
    return Amount(value, value, value, 0.0)


def _plain(text: str) -> str:
    if len(text) > LONGEST:
        raise Problem(f", {len(text)} letters long", f"write at most {LONGEST} letters")
    plain = text.translate(PLAIN).replace("+/-", "+-").replace("''", '"')
    return " ".join(plain.split())


def _read_range(plain: str, dimension: str) -> Amount:
    left, _, right = (side.strip() for side in plain.partition(".."))
    if "..." in plain:
        raise Problem(", with three points", "write two points between the ends, as 10..14")
    if ".." in right or "+-" in plain:
        raise Problem(", which has more than one range or spread", "write 10..14 or 12 +- 1, not both")
    if not left or not right:
        raise Problem(", a range with one end", "write both ends, as 10..14")
    first, last = _two(left, right, dimension)
    low, high = _si(first, dimension), _si(last, dimension)
    if low.downward and high.downward:  # written without a sign, the deeper vacuum comes last
        low, high = high, low
    if low.value > high.value:
        raise Problem(", a range from the larger to the smaller", "write the smaller end first")
    middle = low.value if low.value == high.value else 0.5 * (low.value + high.value)
    if dimension == "money":
        middle = float(round(middle))  # ours: of two cents that share a middle, the even one
    return Amount(middle, low.value, high.value, 0.0)


def _read_spread(plain: str, dimension: str) -> Amount:
    left, _, right = (side.strip() for side in plain.partition("+-"))
    if "+-" in right:
        raise Problem(", which has more than one spread", "write one spread, as 12 +- 1")
    if not left or not right:
        raise Problem(", a spread with one side", "write both the value and its spread, as 12 +- 1")
    if right[0] in "+-":
        raise Problem(", a spread with a sign", "write the spread without a sign")
    if right.endswith("%") and dimension not in ("share", "slope"):
        if dimension == "temperature":
            raise Problem(", a percentage of a temperature", "write the spread in F, C or K")
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
        raise Problem(", whose second number has no unit", "write the unit at the end, or after both")
    elif not first.unit and last.unit:
        if unit_named(dimension, last.unit) is None and _compound(last, dimension) is not None:
            raise Problem(", whose first number has no unit", "write the unit after both")
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
        raise Problem(", an amount of money", f"write it in {NOUNS[dimension].offered}")
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
        raise Problem(", where a number is missing", "write the number, then the unit")
    # 20/100 mL is a count per volume, not a fifth of a milliliter.
    if dimension != "per_volume" and (found := FRACTION.match(text)):
        whole, above, below = (float(part or 0) for part in found.groups())
        if not below:
            raise Problem(", which divides by nothing", "write a fraction such as 1/2")
        if found[1] and above >= below:
            raise Problem(", whose fraction is not less than one", "write it as 12-1/2")
        if dimension in SWITCHES and below not in RULER:
            raise Problem(", which reads as a fraction", "write the two settings of a switch as two values")
        number, rest = whole + above / below, text[found.end() :]
    else:
        chunk = DIGITS.match(text)
        digits = chunk[0] if chunk else ""
        text = _without_commas(digits, dimension) + text[len(digits) :]
        found = DECIMAL.match(text)
        if not found:
            raise Problem(", which does not begin with a number", "write the number, then the unit")
        # A long exponent is no use, and float would take its time.
        number, rest = float(found[0]) if len(found[1] or "") < 6 else math.inf, text[found.end() :]
    if not number <= LARGEST:
        raise Problem(", a number past any use", "check the digits")
    _check_rest(rest)
    return number, rest


def _without_commas(digits: str, dimension: str) -> str:
    """A number's digits without the commas between thousands, where they can be nothing else."""
    if "," not in digits or CLEAR_THOUSANDS.fullmatch(digits) or (dimension == "money" and TWO_WAYS.fullmatch(digits)):
        return digits.replace(",", "")
    point, none = digits.replace(",", "."), digits.replace(",", "")
    if TWO_WAYS.fullmatch(digits):
        raise Problem(f", whose comma reads two ways: {none} or {point}", f"write {none} or {point}")
    if re.fullmatch(r"[0-9]+,[0-9]+", digits):
        raise Problem(", with a comma for the decimal point", f"write a point: {point}")
    raise Problem(", whose commas and points do not make a number", "write one point, as 1340.5")


def _check_rest(rest: str) -> None:
    """What stands behind a number is a unit, not more digits."""
    if re.match(r"[.,]", rest):
        raise Problem(", whose commas and points do not make a number", "write one point, as 1340.5")
    if re.match(r" ?- ?[0-9.]", rest):
        raise Problem(", two numbers with a dash between", "write a range as 10..14, a fraction as 12-1/2")
    if re.match(r" ?/ ?[0-9]", rest) and not re.match(r" ?/ ?10* ?[A-Za-z]", rest):
        raise Problem(", whose slashes do not make a fraction", "write 12-1/2 or 12.5")
    if re.match(r" [0-9]{3}(?![0-9])", rest):
        raise Problem(", a number with a space in it", "write the digits without spaces, as 1340")
    if re.match(r" ?[0-9]", rest) and not re.match(r" ?1/[A-Za-z]", rest):
        raise Problem(", two numbers side by side", "write 12.5, 12-1/2 or 12 ft 5 in")
    if rest.startswith(":"):
        raise Problem(", a ratio that reads as rise to run or run to rise", "write a percentage, or in/ft")


def _si(written: _Written, dimension: str) -> _Read:
    """A number with its unit in SI."""
    unit = unit_named(dimension, written.unit)
    if unit is not None:
        size = written.number * unit.factor + 0.0  # no negative nothing
        value = size + unit.offset
        downward = unit.factor < 0.0
        if downward and written.number < 0.0:
            raise Problem(", a vacuum with a minus", "write inHg vacuum without a sign")
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
        raise Problem(", a part of a cent", "write dollars and whole cents, as $12.50")
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
        raise Problem(", whose second number has no unit", "write the unit after both, as 12 ft 6 in")
    smaller = unit_named(dimension, tidy(rest))
    if not smaller or SMALLER.get(larger.factor) != smaller.factor:
        return None
    if number * smaller.factor >= larger.factor or written.number % 1.0:
        raise Problem(", whose two parts do not add up to one", "write as 12 ft 6 in, or as 12.5 ft")
    return math.copysign(abs(written.number) * larger.factor + number * smaller.factor, written.number)


def _unknown(unit: str, dimension: str) -> Problem:
    noun = NOUNS[dimension]
    if not unit:
        return Problem(", a number without a unit", f"add the unit: {noun.offered}")
    remedy = f"write it in {noun.offered}"
    for other in NOUNS:
        try:
            known = other != dimension and unit_named(other, unit) is not None
        except Problem:
            known = False
        if known:
            name = "a pressure" if other.startswith("pressure") else NOUNS[other].name
            return Problem(f", {name}", remedy)
    return Problem(f', where "{_echo(unit)}" is no unit known here', remedy)


def _echo(text: str) -> str:
    short = text if len(text) <= LONGEST_ECHO else f"{text[:LONGEST_ECHO]}..."
    return short if short.isprintable() else ascii(short)[1:-1]


def _refuse(text: str, dimension: str, problem: Problem) -> NoReturn:
    noun = NOUNS[dimension]
    examples = " or ".join(dict.fromkeys((f'"{noun.us_example}"', f'"{noun.si_example}"')))
    wanted = f"{noun.name} such as {examples}"
    raise UnitError(f'"{_echo(text)}"{problem.remark}', wanted, problem.remedy) from None
