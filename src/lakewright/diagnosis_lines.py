"""What `diagnose` prints, line by line."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from lakewright import units
from lakewright.lines import answer_lines, hung

if TYPE_CHECKING:
    from lakewright.api.diagnose import Advice
    from lakewright.search.diagnose import Expected, Suspect
    from lakewright.search.next_test import NextTest

LEAST_CHANCE = 0.03
"""ours: what is less likely than 3 in 100 is not printed."""

MOST_SUSPECTS = 5
"""ours: a longer list is no longer read."""

NAMES = {
    "suction_standing": ("suction, standing", "gauge"),
    "suction_running": ("suction, running", "gauge"),
    "pressure_standing": ("after the pump, standing", "gauge"),
    "pressure_running": ("after the pump, running", "gauge"),
    "pressure_shut": ("after the pump, valve shut", "gauge"),
    "suction_shut": ("suction, valve shut", "gauge"),
    "pressure_stop": ("pressure as it stops", "gauge"),
    "tank_air": ("air in the empty tank", "gauge"),
    "flow": ("flow by bucket", "flow"),
    "flow_before_filter": ("flow before the filters", "flow"),
    "lake_level": ("water against its mark", "height"),
    "motor_current": ("motor current", "current"),
    "drawdown": ("drawn from the tank", "volume"),
    "cycle_time": ("start to start, one tap", "minutes"),
}
"""How a reading is called, and shown."""

NOTHING_SAID = (
    "Ask what changed lately, how it came and what happens over the first minute; then read what stands below into "
    "[[readings]]."
)

CAUTION = (
    "Power off and locked before a hand goes near pump, switch or wiring; a tank under pressure is let down first. "
    "A valve behind a running pump is shut for a moment and no longer, and not where the pump can make more than "
    "pipe and gauge before it bear. "
    "Chances are ours and no finding: the look decides."
)


def advice_lines(advice: Advice) -> Iterator[str]:
    """What is likely wrong, the likeliest first, and what to do next."""
    found, system = advice.found, advice.units
    yield f"{advice.title}   {f'visit of {advice.date}' if advice.date else 'no visit in the file'}"
    for wrong in found.impossible:
        low, high = (reading_words(wrong.name, edge, system) for edge in (wrong.low, wrong.high))
        read = reading_words(wrong.name, wrong.read, system)
        what = f"{NAMES[wrong.name][0]} {read} is impossible: this system, sound or sick, shows {low} to {high}. "
        yield from hung("! ", what + "Read it once more; it is left out of what follows.")
    if found.unweighed:
        names = ", ".join(NAMES[name][0] for name in found.unweighed)
        yield from hung("? ", f"not weighed: {names}, because {'; '.join(advice.missing)}")
    if not found.fits:
        yield from hung("! ", "No single fault explains these readings together: read again, or look for two faults.")
    if not is_nothing_said(advice):
        yield ""
        shown = [s for s in found.suspects[:MOST_SUSPECTS] if s.chance >= LEAST_CHANCE]
        for number, suspect in enumerate(shown, start=1):
            yield from _suspect_lines(number, suspect, system)
        yield from hung(
            f"   {chance_words(found.beside):14}", "none of the faults that this list knows, or two at once"
        )
        yield from _alike_lines(found.suspects)
        yield from _next_lines(advice.next)
    else:
        yield from hung("", NOTHING_SAID)
    yield from _expected_lines(advice)
    yield from answer_lines([answer for answer in advice.answers if answer.do])
    yield ""
    yield from hung("* ", CAUTION)


def is_nothing_said(advice: Advice) -> bool:
    """Whether nothing was read, seen or ruled out by which one fault is likelier than another."""
    case = advice.found.case
    return not (case.seen or case.said.signs or case.said.ruled_out)


def _suspect_lines(number: int, suspect: Suspect, system: str) -> Iterator[str]:
    fault = suspect.fault
    yield from hung(f"{number}. {chance_words(suspect.chance):14}", fault.words)
    if fault.size:
        low, high = sorted((suspect.size[0], suspect.size[2]), key=abs)
        ends = span(low, high, fault.kind, system)
        cost = "nobody knows what share" if math.isnan(suspect.lost[1]) else span(*suspect.lost[::2], "share", system)
        yield from hung(" " * 17, f"{ends} {fault.size}; it costs {cost} of the flow")
    for step, look in enumerate(fault.look):
        yield from hung(f"{'look' if step == 0 else '':>15}  ", look)


def chance_words(chance: float) -> str:
    """A chance in words, no finer than it is known.

    >>> [chance_words(chance) for chance in (0.96, 0.62, 0.06)]
    ['nearly sure', '6 in 10', '1 in 17']
    """
    if chance >= 0.95:
        return "nearly sure"
    if chance >= 0.15:
        return f"{round(10.0 * chance)} in 10"
    return f"1 in {round(1.0 / chance)}"


def _alike_lines(suspects: Sequence[Suspect]) -> Iterator[str]:
    """What the first shares with others that gauges hardly tell from it."""
    first = suspects[0].fault
    same = [suspect for suspect in suspects if suspect.fault.alike == first.alike]
    several = [suspect for suspect in same if suspect.chance >= LEAST_CHANCE]
    if len(several) > 1:
        together = chance_words(sum(suspect.chance for suspect in same))
        yield from hung("   ", f"Gauges hardly tell {len(several)} of these apart: {first.alike}, {together} in all.")


def _next_lines(tests: Sequence[NextTest]) -> Iterator[str]:
    if tests:
        yield ""
    for number, test in enumerate(tests[:2]):
        minutes = f"{test.minutes:.0f} min"
        head = "Next, to tell these apart" if number == 0 else "or"
        yield from hung(f"{head}: " if number == 0 else "   or ", f"{test.kind} {test.words} ({minutes})")


def _expected_lines(advice: Advice) -> Iterator[str]:
    """What a sound system reads, for what holds its water and where the lake stands, and what was read."""
    expected, system = advice.found.expected, advice.units
    if not expected:
        return
    yield ""
    yield from hung("", sound_words(advice))
    yield f"{'Readings':29}{'sound, nine in ten':34}read"
    for each in expected:
        name, kind = NAMES[each.name]
        read = "" if each.read is None else reading_words(each.name, each.read, system)
        off = each.read is not None and not each.low <= each.read <= each.high
        yield f"  {name:27}{reading_span(each, kind, system):34}{read}{'   <' if off else ''}"


def sound_words(advice: Advice) -> str:
    """For what a system is told what it reads when sound: what holds its water, and where the lake stands."""
    level = span(*advice.found.level, "height", advice.units)
    return f"What this system reads when sound: {advice.held}, the water at {level} from the usual level."


def reading_span(each: Expected, kind: str, system: str) -> str:
    """What a reading should be, as a gauge has it."""
    if kind != "gauge" or each.high > 0.0:
        return span(max(each.low, 0.0) if kind != "gauge" else each.low, each.high, kind, system)
    return f"{span(-each.high, -each.low, 'vacuum', system)} of vacuum"


def reading_words(name: str, value: float, system: str) -> str:
    """A reading as a gauge has it: a vacuum where it is under the air's pressure."""
    kind = NAMES[name][1]
    if kind == "gauge" and value < 0.0:
        return f"{units.show(-value, 'vacuum', system)} of vacuum"
    return units.show(value, kind, system)


def span(low: float, high: float, kind: str, system: str) -> str:
    """From one number to another, with the unit once."""
    if kind == "share":
        # Whole hundredths, and tenths of them only where little is left to the whole.
        low, high = (round(part, 2 if part < 0.985 else 3) for part in (low, high))
    first, last = units.show(low, kind, system), units.show(high, kind, system)
    if first == last:
        return first
    return f"{first.partition(' ')[0]} to {last}"
