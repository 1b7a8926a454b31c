"""The screen rules we know of in words: velocity, area it counts on, openings, where, which edition, who read it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from lakewright import units
from lakewright.sources import load_sources
from lakewright.state.gather import screen_rule_rows

AREAS = {"effective": "the area not behind structure", "open": "the openings alone"}
ASK = "ask the authority which rule is in force, and in which edition"


def rule_for(region: str | None) -> str | None:
    """The rule that we know of for a region as a job names it, or none.

    >>> rule_for("Alaska"), rule_for("heron district"), rule_for("Ontario, Canada")
    ('alaska', None, 'canada trout')
    """
    said = [part.strip().casefold() for part in (region or "").split(",")]
    for name, row in screen_rule_rows().items():
        if {place.casefold() for place in row.get("regions", ())} & set(said):
            return name
    return None


def rule_words(name: str, system: str) -> str:
    """A rule in a line: what it asks, on what it counts, and how well we know it.

    >>> rule_words("alaska", "US")[:67]
    'alaska: 0.50 ft/s on the area not behind structure, openings to 0.1'
    """
    row = screen_rule_rows()[name]
    asked = f"{units.show(units.read(row['velocity'], 'speed'), 'face_speed', system)} on {AREAS[row['area']]}"
    if "opening" in row:
        asked += f", openings to {row['opening']}"
    if "slot" in row:
        asked += f", slots of profile wire to {row['slot']}"
    return f"{name}: {asked}; {'; '.join(_known(row))}"


def _known(row: dict[str, Any]) -> Iterator[str]:
    """Each source of a rule with its edition and whether anybody here read it."""
    for place in dict.fromkeys(row[key] for key in ("source", "opening_source") if key in row):
        source = load_sources()[place]
        yield f"{source} ({source.standing})"


def every_rule(system: str) -> tuple[str, ...]:
    """All rules in words, and whom to ask."""
    return (*(rule_words(name, system) for name in screen_rule_rows()), ASK)
