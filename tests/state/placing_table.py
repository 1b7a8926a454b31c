"""The same supply in other places: printed, for who wants to see what a place does.

python -m tests.state.placing_table
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache

from lakewright.checks.registry import judge
from lakewright.checks.verdict import STATUS_WORDS
from lakewright.job.quantity import value_of
from lakewright.job.read import read_job_text
from lakewright.report import Finding, findings_of
from lakewright.search.spots import JUDGED, Spots, spots_of
from lakewright.state.assemble import facts_of
from lakewright.state.facts import is_missing
from lakewright.state.walk import walk
from lakewright.stock.load import load_stock

DEPTHS = (5, 10, 20, 40)  # ft
STEEP = "".join(f'[[site.soundings]]\ndistance = "{x} ft"\ndepth = "{x / 5:g} ft"\n' for x in range(0, 261, 20))

HOUSE = """
[job]
title = "{title}"
units = "US"
date  = 2026-05-09
grade = "quote"
[site]
kind = "{kind}"
dam  = "{dam}"
{more}
[site.wind]
fetch = "{fetch}"
[site.bed]
kind = "{bed}"
[site.clarity]
secchi = "{secchi}"
[need]
baths    = 1
drinking = "yes"
[stand]
at = "{at} ft"
[pump]
distance = "20 ft"
height   = "{up}"
"""


@dataclass(frozen=True)
class Seen:
    """A job in one place: what was found there, worst first, and what all places along its bed say."""

    name: str
    findings: Mapping[str, Finding]
    spots: Spots


@cache
def seen(name: str, text: str) -> Seen:
    """A job, judged where it stands and along its bed."""
    job, stock = read_job_text(text), load_stock()
    assembly = facts_of(job, stock)
    facts = assembly.facts
    missing = {fact: why for fact, why in assembly.missing.items() if is_missing(facts.value(fact))}
    found = findings_of(facts, judge(walk(facts), facts.limits), missing, job.job.units)
    spots = spots_of(job, stock, assembly)
    # Cover is judged at the flow asked for where no pump is chosen, as it is place by place.
    here = min(spots.spots, key=lambda spot: abs(spot.at - value_of(job.stand.at)))
    return Seen(name, {each.name: each for each in (*found, *here.findings)}, spots)


def house(title: str, at: int, soundings: str = STEEP, **changes: str) -> str:
    """A small house on a lake, with some of its words changed."""
    words = {"kind": "lake", "dam": "no", "more": "", "fetch": "1 mi", "bed": "gravel", "secchi": "12 ft", "up": "6 ft"}
    return HOUSE.format(title=title, at=at, **{**words, **changes}) + soundings


def cabin_at(depth: int) -> Seen:
    """The same cabin with its intake in so many feet of water."""
    return seen(f"intake in {depth} ft", house("cabin", 5 * depth))


def natural() -> Seen:
    """A house on a natural lake that swings three feet, its intake in ten feet of water."""
    return seen("natural lake", house("house", 60, more='[site.levels]\nlow = "-3 ft"'))


def dammed() -> Seen:
    """The same behind a dam that draws down twelve feet in winter."""
    more = 'dam_drawdown = "12 ft"\n[site.levels]\nlow = "-3 ft"'
    return seen("behind a dam, 12 ft of drawdown", house("house", 60, kind="reservoir", dam="yes", more=more))


def silty_pond(fetch: str = "900 ft") -> Seen:
    """A silty pond of eight feet, with boats."""
    bed = "".join(
        f'[[site.soundings]]\ndistance = "{x} ft"\ndepth = "{d} ft"\n' for x, d in ((0, 0), (20, 3), (60, 6), (100, 8))
    )
    pond = house("pond", 60, bed, kind="pond", bed="silt", secchi="3 ft", fetch=fetch, more='boats = "some"')
    return seen("silty pond", pond)


EVERY = (*JUDGED, "light_at_the_inlet_is_told", "warm_layer_is_told", "pump_stands_in_its_window")


def lines_of(place: Seen) -> Iterator[str]:
    """What was found in a place, and where it had better be."""
    yield ""
    yield place.name
    for name in EVERY:
        finding = place.findings[name]
        if finding.status != STATUS_WORDS[-1]:
            case = f" [{finding.case}]" if finding.case else ""
            yield f"  {finding.status:8} {name.replace('_', ' ')}: {finding.message}{case}"
    yield f"  best along this bed: {place.spots.pick.name} ({place.spots.pick.status})"
    for reason in place.spots.reasons:
        yield f"    {reason}"


def main() -> None:
    """All of them, printed."""
    for place in (*map(cabin_at, DEPTHS), natural(), dammed(), silty_pond()):
        print(*lines_of(place), sep="\n")


if __name__ == "__main__":
    main()
