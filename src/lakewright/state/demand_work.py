"""What is noted while a demand is worked out: the lines of the working, what is missing, what cannot be used."""

from __future__ import annotations

import json
import math
import re
from dataclasses import dataclass, field

from lakewright.errors import Mistake
from lakewright.job.quantity import Quantity, value_of
from lakewright.state.demand_tables import Family, figures
from lakewright.state.gather import defaults


@dataclass(frozen=True, slots=True)
class DemandLine:
    """One line of the working: what, how much, and where it comes from."""

    what: str
    value: float
    kind: str
    source: str  # a key of the bibliography; empty where the job says it
    why: str


@dataclass
class Work:
    """Collects while a demand is worked out."""

    quote: bool
    family: Family
    lines: list[DemandLine] = field(default_factory=list)
    beside: list[DemandLine] = field(default_factory=list)
    missing: list[str] = field(default_factory=list)
    mistakes: list[Mistake] = field(default_factory=list)

    def lack(self, why: str) -> float:
        """A number nobody has, and why."""
        self.missing.append(why)
        return math.nan

    def figure(self, name: str, given: Quantity | None, place: str, kind: str) -> float:
        """A number from the job, else from the figures if this grade takes it."""
        value = value_of(given)
        if not math.isnan(value):
            return value
        row = figures()[name]
        if not (self.quote or row.always):
            return self.lack(f"{place} is not given")
        self.lines.append(DemandLine(name, row.value, kind, row.source, row.why))
        return row.value

    def practice(self, name: str, lines: list[DemandLine]) -> float:
        """A default flow, noted in `lines`."""
        row = defaults()[name]
        lines.append(DemandLine(name.removeprefix("need.flow, "), row.value, row.kind, row.source, row.why))
        return row.value

    def refuse(self, table: str, name: str, found: str, wanted: str, remedy: str) -> None:
        """A name in one of the need's tables that cannot be used."""
        is_plain = re.fullmatch(r"[\w ,'-]{1,60}", name)
        key = f"[need.{table}] {name if is_plain else quoted(name)}"
        self.mistakes.append(Mistake("", 0, key, found, wanted, remedy))


def quoted(name: str) -> str:
    """A name as a message repeats it."""
    return json.dumps(name if len(name) <= 60 else name[:60] + "...")  # ours: as much as fits on a line
