"""What `doubt --design` prints: the design that is sure enough, or the surest there is and what to measure first."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from typing import TYPE_CHECKING

from lakewright.choice_lines import change_lines, money, more_or_less
from lakewright.lines import WIDTH, hung, in_a_hundred, worth_lines

if TYPE_CHECKING:
    from lakewright.api.sure import SureDesign, SureRow

MOST_SHOWN = 8
"""ours: designs passed over that are named; more fill a screen."""


def sure_lines(found: SureDesign) -> Iterator[str]:
    """A design that is sure enough, for the shop; what a customer is told stands at the end and has no figure of it."""
    title, wanted = found.title or "Job", f"{100.0 * found.sure:.0f} of 100"
    if found.pick is None or found.best is None:
        yield from textwrap.wrap(f"{title}   No design. {found.why}", WIDTH)
        yield from (f"  - {way}" for way in found.ways_out)
        return
    yield f"{title}   a design that holds in {wanted}, over {found.truths:,} sites that would be told like this one"
    yield ""
    yield from _found_lines(found, wanted)
    yield from _held_back_lines(found)
    yield ""
    yield from _walk_lines(found)
    yield ""
    yield from worth_lines(found.worth)
    yield ""
    yield from hung("For the customer: ", _customer(found))


def _found_lines(found: SureDesign, wanted: str) -> Iterator[str]:
    pick = found.pick
    assert pick is not None
    if found.found is not None and not found.changes:
        yield from textwrap.wrap(f"The pick of the search does: {_of(pick, found.units)}.", WIDTH)
        yield from hung("  ", _parts(pick))
    elif found.found is not None:
        more = more_or_less(found.found.row.price - pick.row.price, found.units)
        words = f"This does: {_of(found.found, found.units)}, {more} than the pick: {_of(pick, found.units)}."
        yield from textwrap.wrap(words, WIDTH)
        yield from change_lines(found.changes)
    else:
        yield from textwrap.wrap(f"None holds in {wanted}. The pick: {_of(pick, found.units)}.", WIDTH)
        if found.best is not None and found.best.row != pick.row:
            yield from hung("  the surest looked at: ", f"{_of(found.best, found.units)}: {_parts(found.best)}")
    if found.waits:
        names = ", ".join(name.replace("_", " ") for name in found.waits)
        yield from hung("Left out of every figure, as nobody can judge it: ", names)


def _held_back_lines(found: SureDesign) -> Iterator[str]:
    """What holds the design back that is found, or the surest."""
    if found.held_back:
        yield ""
        yield "What holds it back"
    for chance, is_open in found.held_back[:6]:
        closed = "" if is_open else ", which nothing that is open changes"
        yield f"  {in_a_hundred(chance):>8} of 100   {chance.check.replace('_', ' ')}{closed}"


def _walk_lines(found: SureDesign) -> Iterator[str]:
    """How the walk went, and what was passed over."""
    words = f"{found.passing:,} designs pass the search; {found.looked:,} were looked at, the cheapest first."
    if not found.looked:
        words = f"{found.passing:,} designs pass the search; no choice among them makes it sure enough."
    if found.dropped:
        least, most = (f"{100.0 * share:.0f}" for share in found.dropped_shares)
        words += f" {found.dropped:,} were dropped after few sites, of 100 of which they held in {least} to {most}."
    if found.turned_down:
        words += f" Some were dropped for: {', '.join(name.replace('_', ' ') for name in found.turned_down)}."
    yield from textwrap.wrap(words, WIDTH)
    named = [each.row for each in (found.pick, found.best) if each is not None]
    over = [each for each in found.over if each.row not in named]
    if over:
        yield "Others, every check asked of fewer sites"
    for each in over[:MOST_SHOWN]:
        yield from hung(f"  {in_a_hundred(each.job):>8} of 100   ", f"{_price(each, found.units)}: {_parts(each)}")
    if len(over) > MOST_SHOWN:
        yield f"  and {len(over) - MOST_SHOWN} more"


def _customer(found: SureDesign) -> str:
    """What a customer is told: never how sure."""
    first = next((each.unknown.do for each in found.worth), "")
    if found.found is None:
        return f"{first} before we order." if first else "we do not order before the place has been looked at again."
    if found.pick is not None and found.found.row.price > found.pick.row.price:
        more = money(found.found.row.price - found.pick.row.price, found.units)
        return f"for {more} more it does its work even where the site turns out somewhat worse than told."
    return "it does its work even where the site turns out somewhat worse than told."


def _of(each: SureRow, system: str) -> str:
    return f"{_price(each, system)}, {in_a_hundred(each.job)} of 100"


def _price(each: SureRow, system: str) -> str:
    return f"{'at least ' if each.row.at_least else ''}{money(each.row.price, system)}"


def _parts(each: SureRow) -> str:
    return "; ".join(f"{name} {label}" for name, label in each.row.parts)
