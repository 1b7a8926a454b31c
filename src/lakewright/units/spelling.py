"""The unit that some text spells. A spelling that reads two ways is refused with both readings."""

from __future__ import annotations

import functools
import re

from lakewright.units.tables import ARITHMETIC, GRAVITY, OVER, TWO_READINGS, UNITS, WATER_AT_60_F, Unit


class Problem(Exception):
    """A fault inside a quantity, before the whole of the text is at hand to name it."""

    def __init__(self, remark: str, remedy: str) -> None:
        super().__init__(remark)
        self.remark = remark
        self.remedy = remedy


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
            raise Problem(f', where "{text}" may be milli- or mega-', f"write {spelling} if that is meant")
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
        raise Problem(", an absolute pressure", "write what a gauge shows, as 30 psi")
    if dimension == "pressure_absolute" and not counted.startswith("a"):
        raise Problem(", a gauge pressure", "write the absolute pressure, as 14.2 psia or 98 kPa abs")
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
        raise Problem(f', where "{text}" reads two ways: {readings}', remedy)
