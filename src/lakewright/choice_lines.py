"""What `design` prints: the pick, what its comfort costs, its rivals, and what stood in the way."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from lakewright.lines import WIDTH, hung
from lakewright.report_lines import brief_lines, report_lines

if TYPE_CHECKING:
    from lakewright.api.design import Choice, Row
    from lakewright.search.near import Saving
    from lakewright.search.steps import Step


MOST_ROWS, MOST_WAYS = 3, 5
"""ours: designs and checks that are named in brief; the pick decides, and more fill a screen."""


def choice_lines(choice: Choice, seconds: float, whole: bool) -> Iterator[str]:
    """What a search found and what stood in the way: all of it, or what decides."""
    if choice.ways_out:
        yield from textwrap.wrap(f"{choice.title or 'Job'}   No design. {choice.why}", WIDTH)
        yield from (f"  - {way}" for way in choice.ways_out)
        return
    opened = ", ".join(choice.open_parts) or "nothing"
    yield f"{choice.title or 'Job'}   open: {opened}"
    yield f"{choice.choices:,} choices, {choice.circuits:,} different circuits, {seconds:.1f} s"
    yield from hung("", passing_words(choice))
    yield ""
    yield from textwrap.wrap(f"The pick: {choice.why}", WIDTH)
    if choice.turned_down:
        names = ", ".join(name.replace("_", " ") for name in choice.turned_down)
        yield from hung("Cheaper ones were passed over, for they fall short in: ", names)
    yield from _steps_in_words(choice)
    rows = choice.shortlist or choice.near_misses
    if rows:
        yield ""
        yield "Each is priced by its own bill, work and all. Margin 1 is comfort, 0 the bare limit."
        yield ""
    shown = rows if whole else rows[:MOST_ROWS]
    for number, row in enumerate(shown, start=1):
        yield from _row_lines(number, row, rows[0], choice.units)
    if len(rows) > len(shown):
        yield f"and {len(rows) - len(shown)} more"
    if choice.ways:
        yield ""
        heads = ("failed or unknown", "alone in the way") if choice.exact else ("failed, at least", "alone, at least")
        yield f"{'What stood in the way':40} {heads[0]:>17} {heads[1]:>17}"
        for way in choice.ways if whole else choice.ways[:MOST_WAYS]:
            force = "" if way.force == "must" else f" ({way.force})"
            yield f"  {way.check.replace('_', ' ') + force:40} {way.failed:>15,} {way.alone:>17,}"
    if choice.pick is not None:
        yield ""
        yield from report_lines(choice.pick) if whole else brief_lines(choice.pick)


def passing_words(choice: Choice) -> str:
    """How many pass; where something that the search does not choose stands against all of them, that none does."""
    against = {row.stands_against for row in choice.shortlist}
    if not choice.shortlist or "" in against:
        return f"{choice.passing:,} pass, {choice.holding:,} of them with comfort"
    names = ", ".join(sorted(against)).replace("_", " ")
    return f"none passes; {choice.passing:,} fail in nothing but what is not chosen here: {names}"


def _steps_in_words(choice: Choice) -> Iterator[str]:
    """What the comfort of the pick costs, what a little more buys, or what saves the nearest miss."""
    if choice.bought is not None:
        more = (
            f"It costs {more_or_less(choice.bought.price, choice.units)} than the cheapest that passes, which is tight:"
        )
        yield from _step_lines(more, choice.bought)
    if choice.buys is not None:
        more = f"What costs {more_or_less(choice.buys.price, choice.units)} has more to spare, the pick being tight:"
        yield from _step_lines(more, choice.buys)
    if choice.saving is not None:
        yield from _saving_lines(choice.saving, choice.units)


def _step_lines(head: str, step: Step) -> Iterator[str]:
    better = "1 and more" if step.better >= 1.0 else f"{step.better:.2f}"
    check = step.check.replace("_", " ")
    yield ""
    yield from textwrap.wrap(
        f"{head} {check}, margin {step.margin:.2f}. The money buys margin {better} throughout:", WIDTH
    )
    yield from change_lines(step.changes)


def change_lines(changes: Sequence[tuple[str, str, str]]) -> Iterator[str]:
    for part, before, after in changes:
        yield from hung(f"  {part}: ", f"{after} instead of {before}")


def _saving_lines(saving: Saving, system: str) -> Iterator[str]:
    check = saving.check
    short = f"It falls short in: {check.name.replace('_', ' ')}{lacks_in_words(saving, system)}."
    yield ""
    if saving.changes:
        yield from textwrap.wrap(f"{short} What would save it costs {more_or_less(saving.price, system)}:", WIDTH)
        yield from change_lines(saving.changes)
    else:
        words = f"{short} No other option of one part that the job names would save it: {check.remedy}."
        yield from textwrap.wrap(words, WIDTH)


def lacks_in_words(saving: Saving, system: str) -> str:
    """By how much the nearest miss falls short, where that is known."""
    from lakewright import units

    if saving.lacks != saving.lacks:
        return ""
    lacks, nothing = (units.show(each, saving.check.shows, system) for each in (saving.lacks, 0.0))
    return " by a hair" if lacks == nothing else f" by {lacks}"


def more_or_less(cents: int, system: str) -> str:
    """How much dearer or cheaper, in whole dollars."""
    return f"{money(abs(cents), system)} {'more' if cents >= 0 else 'less'}"


def money(cents: float, system: str) -> str:
    from lakewright import units

    return units.show(100.0 * round(cents / 100.0), "money", system).removesuffix(".00")


def _row_lines(number: int, row: Row, first: Row, system: str) -> Iterator[str]:
    # A hair under the limit is shown as such, never as minus nothing.
    short = -0.005 < row.margin < 0.0
    margin = "margin unknown" if row.margin != row.margin else f"margin {row.margin:{'.1g' if short else '.2f'}}"
    least = "" if row.margin >= 1.0 or row.stands_against else f" ({row.least.replace('_', ' ')})"
    back = f" and {money(row.call_back, system)} of expected call-back" if row.call_back else ""
    against = f", against it: {row.stands_against.replace('_', ' ')}" if row.stands_against else ""
    price = f"{'at least ' if row.at_least else ''}{money(row.price, system)}"
    hours = f"{row.hours:.0f} hours of work and carrying"
    yield from textwrap.wrap(
        f"{number}. {price}{back}, {hours}, {margin}{least}{against}", WIDTH, subsequent_indent="   "
    )
    # Of the others, only what is not as in the first.
    parts = [each for each in row.parts if row is first or each not in first.parts]
    words = "; ".join(f"{name} {label}" for name, label in parts)
    yield from hung("   ", words)
