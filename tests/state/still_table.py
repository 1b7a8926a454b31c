"""Stands in different water: what holds each, printed by `python -m tests.state.still_table`, looked at by its test."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from lakewright.api.report import report_on
from lakewright.job.read import read_job_text
from lakewright.job.write import set_values
from lakewright.report import Finding
from lakewright.state.assemble import facts_of
from lakewright.state.ballast import Ballast, how_to_hold
from lakewright.state.facts import Facts
from lakewright.stock.load import load_stock

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"

QUOTE = """
[job]
units = "SI"
grade = "quote"
[site]
kind = "lake"
elevation = "200 m"
dam = "no"
boats = "none"
[site.levels]
low = "0 m"
flood = "1 m"
[[site.days]]
name = "summer"
level = "0 m"
water = "15 C"
[[site.soundings]]
distance = "0 m"
depth = "0 m"
[[site.soundings]]
distance = "40 m"
depth = "4 m"
[site.wind]
speed = "20 m/s"
averaging = "1 h"
fetch = "3 km"
depth = "4 m"
[site.bed]
kind = "sand"
soft = "0 mm"
[need]
flow = "30 L/min"
[stand]
form = "upright"
at = "40 m"
riser = "24 in"
legs = 4
reach = "400 mm"
wet = "dry"
[stand.inlet]
kind = "foot valve"
stock = "foot valve, spring, 1-1/2 in"
attitude = "up"
screen = "cylinder screen, 4 x 8 in"
[suction]
stock = "polyethylene, SIDR 9, 1-1/2 in"
[pump]
stock = "centrifugal, two-stage, 1/2 hp"
distance = "5 m"
height = "2 m"
"""
"""The worked stand as near as a job says it: sand, 3 km of open water 4 m deep, an hour's wind of 20 m/s."""

STREAM = {"site.kind": "stream", "site.current": "1.5 m/s", "site.wind.fetch": "", "site.soundings.2.depth": "2 m"}

PLACES: Mapping[str, Mapping[str, str]] = {
    "2 m of water": {"site.soundings.2.depth": "2 m"},
    "4 m of water": {},
    "10 m of water": {"site.soundings.2.depth": "10 m"},
    "stream of 1.5 m/s": STREAM,
    "the same, pinned and tied": {**STREAM, "stand.pins": "4", "stand.tether": "true"},
    "the same, low form": {
        **STREAM,
        "stand.pins": "4",
        "stand.tether": "true",
        "stand.form": "low",
        "stand.riser": "4 in",
    },
    "gravel, riser not given": {"site.bed.kind": "gravel", "stand.riser": ""},
    "mud without pins": {"site.bed.kind": "mud", "site.bed.soft": "10 in", "stand.pins": "0"},
    "mud, riser not given": {"site.bed.kind": "mud", "site.bed.soft": "10 in", "stand.riser": ""},
}


@dataclass(frozen=True)
class Outcome:
    """How one stand stays."""

    facts: Facts
    ballast: Ballast | None
    findings: Mapping[str, Finding]
    advice: str
    assumed: Mapping[str, float]

    def factor(self, name: str) -> float:
        value = self.findings[name].value
        return float("inf") if value is None else value


def outcome(text: str) -> Outcome:
    """The outcome of a job."""
    job, stock = read_job_text(text), load_stock()
    assembly = facts_of(job, stock)
    found = {finding.name: finding for finding in report_on(job, assembly).findings}
    needed, system = assembly.ballast(), job.job.units
    advice = how_to_hold(needed, assembly.facts, system) if needed is not None else "not on legs"
    assumed = {each.key: each.value for each in assembly.assumed}
    return Outcome(assembly.facts, needed, found, advice, assumed)


def stand_in(place: str, **more: str) -> Outcome:
    """The worked stand in a place of the table; names of more fields have a double underscore for the dot."""
    changes = {**PLACES[place], **{name.replace("__", "."): value for name, value in more.items()}}
    return outcome(set_values(QUOTE, changes))


def lines() -> list[str]:
    """The table."""
    outcomes = {
        **{place: stand_in(place) for place in PLACES},
        **{file.stem: outcome(file.read_text(encoding="utf-8")) for file in sorted(EXAMPLES.glob("*.toml"))},
    }
    return [_line(name, each) for name, each in outcomes.items()]


def _line(name: str, each: Outcome) -> str:
    if each.ballast is None:
        return f"{name}: {each.advice}"
    asked = ", ".join(f"{law} {getattr(each.ballast, law):.1f}" for law in ("sliding", "tipping", "floating"))
    factors = ", ".join(f"{n.split('_')[-1]} {each.factor(n):.2f}" for n in each.findings if n in FACTORS)
    return (
        f"{name}: needs {each.ballast.mass:.1f} kg by {each.ballast.law} ({each.ballast.case}; asked {asked});"
        f" as built {factors}; riser {each.facts.stand.riser[0]:.2f} m,"
        f" rests on {each.facts.stand.rest_area[0]:.3f} m2;"
        f" {each.advice}"
    )


FACTORS = ("stand_does_not_slide", "stand_does_not_tip", "stand_does_not_float", "stand_does_not_sink")


if __name__ == "__main__":
    print("\n".join(lines()))
