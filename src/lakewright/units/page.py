"""The reference page of units, written from the tables."""

from __future__ import annotations

from lakewright.units.kinds import KINDS
from lakewright.units.showing import show, shown_unit
from lakewright.units.tables import NOUNS, OVER, TWO_READINGS, UNITS


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
        example = _EXAMPLES.get(kind.dimension, 12.5 * shown_unit(name, "US").factor)
        shown = (_code(show(example, name, system)) for system in ("US", "SI"))
        lines.append(f"| {name} | {kind.dimension.replace('_', ' ')} | {' | '.join(shown)} |")
    return lines


_EXAMPLES = {"temperature": 287.5, "slope": 0.02, "share": 0.5, "strength": 2.0e6}  # spellings, not data
