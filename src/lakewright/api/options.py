"""What else would hold, for a quote: the shortlist of a search, where a job leaves something open."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from lakewright import units
from lakewright.api.design import Choice, design
from lakewright.errors import LakewrightError
from lakewright.report import Report
from lakewright.search.steps import Step
from lakewright.state.labour import HOUR

MOST = 5
"""ours: options a customer is shown; more is no help in choosing."""


@dataclass(frozen=True)
class OptionRow:
    """One design in words: its parts, of those after the first what is not as in it; its price and its work."""

    parts: tuple[str, ...]
    price: str
    hours: str


@dataclass(frozen=True)
class More:
    """What a little more money buys, in words: how much, which check, and part by part what is changed."""

    price: str
    check: str
    changes: tuple[tuple[str, str, str], ...]


@dataclass(frozen=True)
class Options:
    """The options of a quote."""

    rows: tuple[OptionRow, ...]
    bought: More | None
    buys: More | None


def chosen(path: Path, found: Report) -> Choice | None:
    """What is chosen for a job that leaves something open; nothing where it does not, or nothing passes."""
    if found.ways_out or not any("is open: design chooses it" in each.message for each in found.findings):
        return None
    try:
        choice = design(path)
    except LakewrightError:
        return None
    return choice if choice.shortlist else None


def as_options(choice: Choice, system: str) -> Options:
    """A search's shortlist in a customer's words."""
    first = choice.shortlist[0]
    rows = []
    for row in choice.shortlist[:MOST]:
        parts = [f"{name} {label}" for name, label in row.parts if row is first or (name, label) not in first.parts]
        price = f"{'at least ' if row.at_least else ''}{units.show(float(row.price), 'money', system)}"
        hours = f"{units.show(row.hours * HOUR, 'hours', system)} of work and carrying"
        rows.append(OptionRow(tuple(f"{part};" for part in parts[:-1]) + tuple(parts[-1:]), price, hours))
    return Options(tuple(rows), _more(choice.bought, system), _more(choice.buys, system))


def _more(step: Step | None, system: str) -> More | None:
    if step is None or step.price <= 0:
        return None
    return More(units.show(float(step.price), "money", system), step.check.replace("_", " "), step.changes)
