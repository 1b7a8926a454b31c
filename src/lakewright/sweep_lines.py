"""What `sweep` prints: how the jobs come out, scenario by scenario, what fails most, and what could not be judged."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import TYPE_CHECKING

from lakewright.lines import hung

if TYPE_CHECKING:
    from lakewright.api.sweep import Sweep

STATUSES = ("holds", "tight", "unknown", "fails", "not judged")
NAMED = 8
"""ours: so many checks and jobs are named; the table has the rest."""


def sweep_lines(found: Sweep) -> Iterator[str]:
    """A short report on a sweep."""
    yield f"{len(found.jobs):,} jobs, {len(found.scenarios)} scenarios"
    yield ""
    name = max(len(each) for each in found.scenarios)
    yield f"{'':{name}} " + "".join(f"{status:>11}" for status in STATUSES) + f"{'fail anew':>11}"
    for number, scenario in enumerate(found.scenarios):
        many = Counter(swept.outcomes[number].status for swept in found.jobs)
        anew = sum(
            swept.outcomes[number].status == "fails" and swept.outcomes[0].status not in ("fails", "not judged")
            for swept in found.jobs
        )
        counted = "".join(f"{many[status]:11,}" for status in STATUSES)
        yield f"{scenario:{name}} {counted}{anew:11,}" if number else f"{scenario:{name}} {counted}"
    yield from _most(found)
    yield from _troubled(found)


def _most(found: Sweep) -> Iterator[str]:
    """The musts that fail most, and in which scenario the most."""
    by_check: dict[str, Counter[str]] = {}
    for swept in found.jobs:
        for outcome in swept.outcomes:
            for check in outcome.fails:
                by_check.setdefault(check, Counter())[outcome.scenario] += 1
    if not by_check:
        return
    yield ""
    yield f"What fails most, of {len(found.jobs) * len(found.scenarios):,} outcomes"
    place = {name: number for number, name in enumerate(found.scenarios)}
    for check, many in sorted(by_check.items(), key=lambda each: (-each[1].total(), each[0]))[:NAMED]:
        worst = min(many, key=lambda name: (-many[name], place[name]))
        yield f"  {check.replace('_', ' '):40}{many.total():9,}   most in: {worst}, {many[worst]:,}"


def _troubled(found: Sweep) -> Iterator[str]:
    """The jobs that could not be judged, and why."""
    rows = [(swept.job, swept.outcomes[0].trouble) for swept in found.jobs if swept.outcomes[0].trouble]
    if not rows:
        return
    yield ""
    yield f"{len(rows):,} could not be judged"
    for job, trouble in rows[:NAMED]:
        yield from hung(f"  {job}: ", " ".join(trouble.split()))
    if len(rows) > NAMED:
        yield f"  and {len(rows) - NAMED:,} more: the table has them"
