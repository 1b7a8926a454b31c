"""Scenarios: what might be otherwise than a job says, asked of many jobs at once.

[[scenario]]
name        = "lake two feet lower"
level       = "-2 ft"      # added to the level of every day
temperature = "5 F"        # added to the water's
ice         = "6 in"       # added where there is ice
wear        = "10 %"       # of the pump's head gone
change      = { "pump.stock" = "jet, shallow, 1 hp" }    # values of the job file, by their paths
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from lakewright import units
from lakewright.errors import JobError, Mistake, UnitError
from lakewright.job.layout import lines_of
from lakewright.job.quantity import echo
from lakewright.job.read import plain_line_ends, read_text, read_toml
from lakewright.job.table import LONGEST_TEXT

A_SCENARIO_FILE = "a file of scenarios"

AS_IT_IS = "as it is"
"""The name of the first scenario, in which nothing is changed."""

SHIFTS = {
    "level": ("length", "-2 ft or -0.6 m"),
    "temperature": ("temperature_difference", "5 F or 3 C"),
    "ice": ("length", "6 in or 150 mm"),
    "wear": ("share", "10 %"),
}
"""What is added to the facts of a job: dimension, and an example."""


@dataclass(frozen=True)
class Scenario:
    """One scenario.

    level [m], temperature [K] and ice [m] are added to those of every day; wear [share] is that of the pump's head
    change : values as they are typed, by their paths in a job file
    """

    name: str
    level: float = 0.0
    temperature: float = 0.0
    ice: float = 0.0
    wear: float = 0.0
    change: tuple[tuple[str, str], ...] = ()


def read_scenarios(path: Path) -> tuple[Scenario, ...]:
    """The scenarios of a file, the one in which nothing is changed before them.

    Raises
    ------
    JobError where the file cannot be used, with every mistake found in it
    """
    text = read_text(path, A_SCENARIO_FILE)
    return read_scenarios_text(text, str(path))


def read_scenarios_text(text: str, file: str = "scenarios.toml") -> tuple[Scenario, ...]:
    """The same of a text. `file` is the name that mistakes give."""
    data = read_toml(text, file, A_SCENARIO_FILE)
    lines = lines_of(plain_line_ends(text))
    mistakes: list[Mistake] = []

    def wrong(path: tuple[str | int, ...], found: str, wanted: str, remedy: str) -> None:
        line = next((lines[path[:n]] for n in range(len(path), 0, -1) if path[:n] in lines), 0)
        mistakes.append(
            Mistake(file, line, ".".join(str(part) for part in path[2:] or path[:1]), found, wanted, remedy)
        )

    for key in data:
        if key != "scenario":
            wrong((key,), echo(key), "[[scenario]] and nothing else", "put it under a [[scenario]]")
    rows = data.get("scenario")
    if not isinstance(rows, list) or not rows:
        wrong(("scenario",), "no scenario", "one [[scenario]] at least", 'write [[scenario]] and name = "lake lower"')
        rows = []
    found = [_scenario(row, number, wrong) for number, row in enumerate(rows)]
    names = [each.name for each in found]
    for number, name in enumerate(names):
        if name and (name in names[:number] or name == AS_IT_IS):
            wrong(("scenario", number, "name"), echo(name), "a name that no other scenario has", "name it anew")
    if mistakes:
        raise JobError(mistakes, A_SCENARIO_FILE)
    return (Scenario(AS_IT_IS), *found)


def _scenario(row: Any, number: int, wrong: Any) -> Scenario:
    at = ("scenario", number)
    if not isinstance(row, dict):
        wrong(at, echo(row), "a [[scenario]]", 'write [[scenario]] and name = "lake lower"')
        return Scenario("")
    name = row.get("name", "")
    if not isinstance(name, str) or not name.strip():
        wrong((*at, "name"), echo(name) if name else "no name", "a name", 'write such as name = "lake lower"')
        name = ""
    elif len(name) > LONGEST_TEXT:
        wrong((*at, "name"), f"text of {len(name)} letters", f"at most {LONGEST_TEXT} letters", "say it shorter")
        name = ""
    shifts: dict[str, float] = {}
    for key in row:
        if key in SHIFTS:
            shifts[key] = _shift(row[key], key, (*at, key), wrong)
        elif key not in ("name", "change"):
            known = ", ".join(("name", *SHIFTS, "change"))
            wrong((*at, key), echo(key), f"one of {known}", "take it out, or write it under change")
    return Scenario(name.strip(), change=_change(row.get("change", {}), (*at, "change"), wrong), **shifts)


def _shift(given: Any, key: str, at: tuple[str | int, ...], wrong: Any) -> float:
    dimension, example = SHIFTS[key]
    try:
        if not isinstance(given, str):
            wrong(at, echo(given), "a text with its unit", f"write such as {example}")
            return 0.0
        value = units.read(given, dimension)
    except UnitError as error:
        wrong(at, error.found, error.wanted, error.remedy or f"write such as {example}")
        return 0.0
    if key == "wear" and not 0.0 <= value < 1.0:
        wrong(at, echo(given), "a share from 0 to under 100 %", f"write such as {example}")
    return value


def _change(given: Any, at: tuple[str | int, ...], wrong: Any) -> tuple[tuple[str, str], ...]:
    if not isinstance(given, Mapping):
        wrong(at, echo(given), "a table of paths and values", 'write { "pump.stock" = "jet, shallow, 1 hp" }')
        return ()
    found = []
    for path, value in given.items():
        if isinstance(value, (str, int, float, bool)):
            found.append((str(path), str(value).lower() if isinstance(value, bool) else str(value)))
        else:
            wrong(
                (*at, path),
                echo(value),
                "a value as it is typed in a job file",
                'put the path in quotes: "site.levels.low"',
            )
    return tuple(found)
