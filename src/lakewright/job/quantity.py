"""The value of one field of a job file: a number with its unit, how far it may be off, and who said so.

A quantity is written in one of four ways, with its standing where that is known:

    depth = "12 ft"                                     known
    depth = "10..14 ft"                                 lies between
    depth = { value = "12 +- 1 ft", told = 2026-05-03 } known to within, and by whom
    riser = "open"                                      the program chooses
"""

from __future__ import annotations

import datetime
import json
import math
from dataclasses import dataclass
from typing import Annotated, Any, TypeGuard

from pydantic import GetCoreSchemaHandler
from pydantic_core import core_schema

from lakewright import units

# How a standing is written as a key of a quantity's table, and the word for it.
STANDINGS = {"told": "told", "measured": "measured", "looked_up": "looked up", "assumed": "assumed"}
OPEN = "open"
LONGEST_ECHO = 60  # ours: a mistake names what was found; more than a line of it helps nobody
LONGEST_NOTE = 2000  # ours: a page of words; longer is a paste into the wrong place


class FieldProblem(ValueError):
    """A value that a field cannot take, in the three parts of a message, before its place is known.

    `write` is the right-hand side to write instead; whoever knows the key puts it in front.
    `at` leads from the field to the offending item of a list.
    """

    def __init__(
        self, found: str, wanted: str, remedy: str = "", *, write: str = "", at: tuple[int | str, ...] = ()
    ) -> None:
        super().__init__(f"found {found}; wanted {wanted}")
        self.found = found
        self.wanted = wanted
        self.remedy = remedy
        self.write = write
        self.at = at


def echo(value: object) -> str:
    """A value of a job file as a message repeats it: short, on one line, never a table's whole content."""
    if isinstance(value, dict):
        return "a table"
    if isinstance(value, list):
        return "an empty list" if not value else f"a list of {len(value)}"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        shown = json.dumps(value[: LONGEST_ECHO + 1], ensure_ascii=not value.isprintable())
        return shown if len(value) <= LONGEST_ECHO else shown[:LONGEST_ECHO] + '..."'
    shown = value.isoformat() if isinstance(value, (datetime.date, datetime.time)) else str(value)
    return shown if len(shown) <= LONGEST_ECHO else shown[:LONGEST_ECHO] + "..."


@dataclass(frozen=True, slots=True)
class Quantity:
    """What a job file says of one number. All numbers are SI; nan when open."""

    value: float
    low: float
    high: float
    spread: float
    standing: str
    since: datetime.date | None
    note: str
    open: bool
    text: str
    from_record: bool = False  # taken from the water's record, not written in the job


def is_given(quantity: Quantity | None) -> TypeGuard[Quantity]:
    """Whether a field holds a number: neither left out nor open."""
    return quantity is not None and not quantity.open


def value_of(quantity: Quantity | None) -> float:
    """The number a field holds; nan where it is left out or open."""
    return quantity.value if is_given(quantity) else math.nan


@dataclass(frozen=True, slots=True)
class Noun:
    """How a message names a dimension, and what it offers to write, in each system."""

    name: str
    us_example: str
    si_example: str
    us_unit: str
    si_unit: str
    bare: bool = False  # a plain number is complete by itself


# The examples are spellings, not data.
NOUNS: dict[str, Noun] = {
    "length": Noun("a length", "12 ft", "3.5 m", "ft", "m"),
    "area": Noun("an area", "2 ac", "0.8 ha", "ac", "ha"),
    "volume": Noun("a volume", "62 gal", "240 L", "gal", "L"),
    "mass": Noun("a mass", "20 lb", "9 kg", "lb", "kg"),
    "time": Noun("a time", "30 min", "30 min", "min", "min"),
    "speed": Noun("a speed", "2 ft/s", "0.6 m/s", "ft/s", "m/s"),
    "flow": Noun("a flow", "8 gpm", "0.5 L/s", "gpm", "L/s"),
    "pressure": Noun("a gauge pressure", "30 psi", "200 kPa", "psi", "kPa"),
    "pressure_difference": Noun("a pressure difference", "10 psi", "70 kPa", "psi", "kPa"),
    "head": Noun("a head of water", "150 ft", "45 m", "ft", "m"),
    "temperature": Noun("a temperature", "58 F", "14 C", "F", "C"),
    "power": Noun("a power", "0.75 hp", "550 W", "hp", "W"),
    "degree_days": Noun("a sum of degree-days", "1800 F days", "1000 C days", "F days", "C days"),
    "dose": Noun("a UV dose", "40 mJ/cm2", "40 mJ/cm2", "mJ/cm2", "mJ/cm2"),
    "angle": Noun("an angle", "235 degrees", "235 degrees", "degrees", "degrees"),
    "slope": Noun("a slope", "1/4 in/ft", "2 %", "in/ft", "%"),
    "share": Noun("a share of the whole", "50 %", "50 %", "%", "%", bare=True),
    "concentration": Noun("a concentration", "2 mg/L", "2 mg/L", "mg/L", "mg/L"),
    "turbidity": Noun("a turbidity", "5 NTU", "5 NTU", "NTU", "NTU"),
    "voltage": Noun("a voltage", "230 V", "230 V", "V", "V"),
    "current": Noun("a current", "20 A", "20 A", "A", "A"),
    "money": Noun("an amount of money", "$12.50", "$12.50", "$", "$"),
    "money_per_length": Noun("a price per length", "$1.20/ft", "$4/m", "$/ft", "$/m"),
    "money_per_time": Noun("a price per time", "$85/hour", "$85/hour", "$/hour", "$/hour"),
    "count": Noun("a number", "3", "3", "", "", bare=True),
}


# A field of these kinds has its own name and examples; the rest have those of their dimension.
NOUNS_BY_KIND: dict[str, Noun] = {
    "depth": Noun("a depth", "12 ft", "3.5 m", "ft", "m"),
    "height": Noun("a height", "-2.5 ft", "-0.8 m", "ft", "m"),
    "part": Noun("a length", "24 in", "600 mm", "in", "mm"),
    "bore": Noun("a bore", "1.6 in", "40 mm", "in", "mm"),
    "roughness": Noun("a roughness", "0.002 in", "0.05 mm", "in", "mm"),
    "land": Noun("an area", "2 ac", "0.8 ha", "ac", "ha"),
    "screen_area": Noun("an area", "150 in2", "970 cm2", "in2", "cm2"),
    "elevation": Noun("a height above the sea", "1340 ft", "410 m", "ft", "m"),
    "wind": Noun("a speed of the wind", "35 mph", "55 km/h", "mph", "km/h"),
    "hours": Noun("a time", "8 h", "8 h", "h", "h"),
    "years": Noun("an age", "8 years", "8 years", "years", "years"),
    "suction_gauge": Noun(
        "a reading of the suction gauge", "8 inHg vacuum", "27 kPa vacuum", "inHg vacuum", "kPa vacuum"
    ),
    "vacuum": Noun("a vacuum", "20 inHg", "70 kPa", "inHg", "kPa"),
}


@dataclass(frozen=True, slots=True)
class Dimension:
    """What a field's quantity measures, how it is shown, and between which bounds it makes sense."""

    dimension: str
    kind: str
    least: float
    most: float
    may_be_open: bool = False

    @property
    def noun(self) -> Noun:
        """How a message names what the field measures."""
        return NOUNS_BY_KIND.get(self.kind) or NOUNS[self.dimension]

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> core_schema.CoreSchema:
        return self.schema()

    def schema(self) -> core_schema.CoreSchema:
        """The schema of a quantity of this dimension."""
        return core_schema.with_info_plain_validator_function(self._validate)

    def _validate(self, given: object, info: core_schema.ValidationInfo) -> Quantity:
        if isinstance(given, Quantity):
            return given
        return read_quantity(given, self, (info.context or {}).get("units", "US"))


def read_quantity(given: object, dimension: Dimension, system: str = "US") -> Quantity:
    """The quantity that a value of a job file gives, or UnitError or FieldProblem."""
    if not isinstance(given, dict):
        return _read_amount(given, dimension, system, "", None, "")
    unknown = [key for key in given if key not in (*STANDINGS, "value", "note")]
    if unknown or "value" not in given:
        found = f"a table with the key {echo(unknown[0])}" if unknown else "a table without a value"
        raise FieldProblem(
            found,
            "value, and beside it one of told, measured, looked_up, assumed, and a note",
            write=f"{{ value = {example_of(dimension, system)}, told = 2026-05-03 }}",
            at=(unknown[0],) if unknown else (),
        )
    standing, since = _read_standing(given)
    note = given.get("note", "")
    if not isinstance(note, str) or len(note) > LONGEST_NOTE:
        raise FieldProblem(
            echo(note),
            f"a note in words, at most {LONGEST_NOTE} letters",
            "put the words in quotes",
            at=("note",),
        )
    return _read_amount(given["value"], dimension, system, standing, since, note)


def _read_standing(given: dict[str, Any]) -> tuple[str, datetime.date | None]:
    said = [key for key in STANDINGS if key in given]
    if len(said) > 1:
        raise FieldProblem(
            " and ".join(said),
            "one standing: told, measured, looked_up or assumed",
            f"keep the one that is so, as in {said[0]} = 2026-05-03",
            at=(said[1],),
        )
    if not said:
        return "", None
    key, when = said[0], given[said[0]]
    if when is True:
        return STANDINGS[key], None
    if type(when) is datetime.date:
        return STANDINGS[key], when
    raise FieldProblem(
        echo(when),
        "the date it became known, or true",
        f"write {key} = 2026-05-03, without quotes",
        at=(key,),
    )


def _read_amount(
    given: object, dimension: Dimension, system: str, standing: str, since: datetime.date | None, note: str
) -> Quantity:
    noun = dimension.noun
    wanted = noun.name if noun.bare else f"{noun.name} with its unit"
    if dimension.may_be_open:
        wanted += ', or "open"'
    example = example_of(dimension, system)
    if isinstance(given, (int, float)) and not isinstance(given, bool):
        text = _plain(given)
        if not noun.bare and text:
            unit = noun.si_unit if system == "SI" else noun.us_unit
            if unit == "$":
                text = text if isinstance(given, int) else f"{given:.2f}"
            write = f"${text}{unit[1:]}" if unit.startswith("$") else f"{text} {unit}"
            raise FieldProblem(echo(given), wanted, write=json.dumps(write))
        if not text:
            raise FieldProblem(echo(given), wanted, write=example)
    elif isinstance(given, str):
        text = given
    else:
        raise FieldProblem(echo(given), wanted, write=example)
    if text.strip() == OPEN:
        if not dimension.may_be_open:
            raise FieldProblem('"open"', f"{wanted}; the program does not choose this one", write=example)
        return Quantity(math.nan, math.nan, math.nan, 0.0, standing, since, note, True, text)
    amount = units.read_amount(text, dimension.dimension)
    low, high = (amount.value, amount.value) if amount.spread else (amount.low, amount.high)
    if not (dimension.least <= low and high <= dimension.most):
        per_cent = json.dumps(f"{text} %") if dimension.dimension == "share" and not isinstance(given, str) else ""
        remedy = "check the number, its sign and its unit"
        raise FieldProblem(echo(given), _bounds(dimension, noun, system), remedy, write=per_cent)
    return Quantity(amount.value, amount.low, amount.high, amount.spread, standing, since, note, False, text)


def _plain(number: float) -> str:
    """A number of a job file as text that reads back; empty when it is none, or beyond any use."""
    if isinstance(number, int):
        return str(number) if abs(number) < 10**15 else ""  # ours: past this a float drops whole units
    return repr(number) if math.isfinite(number) else ""


def example_of(dimension: Dimension, system: str) -> str:
    """What one might write on the right of the equals sign, quotes and all."""
    noun = dimension.noun
    example = noun.si_example if system == "SI" else noun.us_example
    return example if dimension.dimension == "count" else json.dumps(example, ensure_ascii=False)


def _bounds(dimension: Dimension, noun: Noun, system: str) -> str:
    least, most = (
        units.show(bound, dimension.kind, system, most=units.EVERY_DIGIT) for bound in (dimension.least, dimension.most)
    )
    return f"{noun.name} from {'0' if dimension.least == 0.0 else least} to {most}"


# Bounds are ours: wide enough for any small supply, narrow enough to catch a slipped unit or sign.
# A bound of zero is the meaning of the word: no distance, depth or pipe is negative.
Length = Annotated[Quantity, Dimension("length", "length", 0.0, 20_000.0)]
LengthOrOpen = Annotated[Quantity, Dimension("length", "length", 0.0, 20_000.0, may_be_open=True)]
Depth = Annotated[Quantity, Dimension("length", "depth", 0.0, 500.0)]
Height = Annotated[Quantity, Dimension("length", "height", -1_000.0, 1_000.0)]
HeightOrOpen = Annotated[Quantity, Dimension("length", "height", -1_000.0, 1_000.0, may_be_open=True)]
Elevation = Annotated[Quantity, Dimension("length", "elevation", -500.0, 6_000.0)]
Part = Annotated[Quantity, Dimension("length", "part", 0.0, 20.0)]
PartOrOpen = Annotated[Quantity, Dimension("length", "part", 0.0, 20.0, may_be_open=True)]
Bore = Annotated[Quantity, Dimension("length", "bore", 0.001, 1.0)]
Roughness = Annotated[Quantity, Dimension("length", "roughness", 0.0, 0.02)]
Land = Annotated[Quantity, Dimension("area", "land", 0.0, 1.0e8)]
ScreenArea = Annotated[Quantity, Dimension("area", "screen_area", 0.0, 100.0)]
Volume = Annotated[Quantity, Dimension("volume", "volume", 0.0, 1.0e5)]
Mass = Annotated[Quantity, Dimension("mass", "mass", 0.0, 1.0e5)]
Minutes = Annotated[Quantity, Dimension("time", "minutes", 0.0, 86_400.0)]
Hours = Annotated[Quantity, Dimension("time", "hours", 0.0, 3.6e7)]
Days = Annotated[Quantity, Dimension("time", "days", 0.0, 3.2e7)]
Years = Annotated[Quantity, Dimension("time", "years", 0.0, 3.2e9)]
Speed = Annotated[Quantity, Dimension("speed", "speed", 0.0, 10.0)]
WindSpeed = Annotated[Quantity, Dimension("speed", "wind", 0.0, 100.0)]
Flow = Annotated[Quantity, Dimension("flow", "flow", 0.0, 1.0)]
FlowOrOpen = Annotated[Quantity, Dimension("flow", "flow", 0.0, 1.0, may_be_open=True)]
Gauge = Annotated[Quantity, Dimension("pressure", "gauge", 0.0, 1.0e7)]
Vacuum = Annotated[Quantity, Dimension("pressure_difference", "vacuum", 0.0, 1.1e5)]
PressureLoss = Annotated[Quantity, Dimension("pressure_difference", "pressure_difference", 0.0, 1.0e6)]
Head = Annotated[Quantity, Dimension("head", "head", 0.0, 1_000.0)]
Temperature = Annotated[Quantity, Dimension("temperature", "temperature", 272.15, 318.15)]
Power = Annotated[Quantity, Dimension("power", "power", 0.0, 1.0e5)]
DegreeDays = Annotated[Quantity, Dimension("degree_days", "degree_days", 0.0, 6.0e8)]
Dose = Annotated[Quantity, Dimension("dose", "dose", 0.0, 1.0e5)]
Angle = Annotated[Quantity, Dimension("angle", "angle", 0.0, 2.0 * math.pi)]
Slope = Annotated[Quantity, Dimension("slope", "slope", 0.0, 2.0)]
Share = Annotated[Quantity, Dimension("share", "share", 0.0, 1.0)]
ShareOverOne = Annotated[Quantity, Dimension("share", "share", 0.0, 5.0)]
Concentration = Annotated[Quantity, Dimension("concentration", "concentration", 0.0, 1_000.0)]
Turbidity = Annotated[Quantity, Dimension("turbidity", "turbidity", 0.0, 10_000.0)]
Voltage = Annotated[Quantity, Dimension("voltage", "voltage", 0.0, 1_000.0)]
Current = Annotated[Quantity, Dimension("current", "current", 0.0, 1_000.0)]
Money = Annotated[Quantity, Dimension("money", "money", 0.0, 1.0e10)]
MoneyPerTime = Annotated[Quantity, Dimension("money_per_time", "money_per_time", 0.0, 1_000.0)]
Number = Annotated[Quantity, Dimension("count", "count", 0.0, 1.0e6)]
SignedGauge = Annotated[Quantity, Dimension("pressure", "gauge", -1.1e5, 1.0e7)]
SuctionGauge = Annotated[Quantity, Dimension("pressure", "suction_gauge", -1.1e5, 1.0e7)]
