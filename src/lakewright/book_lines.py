"""What `book` prints, line by line."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from lakewright.lines import WIDTH, hung, size_words

if TYPE_CHECKING:
    from lakewright.api.book import Card, Hit, Order, Shown
    from lakewright.api.book_checks import Between, Moved, Requote
    from lakewright.api.book_readings import Off, Tuned
    from lakewright.api.book_round import Ready, Round
    from lakewright.book.round import Stop


def card_lines(cards: Sequence[Card]) -> Iterator[str]:
    """Papers, a line each."""
    width = max((len(card.last.name) for card in cards), default=0)
    for card in cards:
        stands = f"{card.stage} since {card.since}" if card.stage else ""
        told = "   ".join(part for part in (stands, card.customer, card.water) if part)
        yield f"{card.last.name:{width}}   revision {card.last.revision}, {card.last.day}   {told}"
    if not cards:
        yield "None."


def hit_lines(hits: Sequence[Hit], words: str) -> Iterator[str]:
    """Papers in which words were found, and where."""
    for hit in hits:
        yield f"{hit.card.last.name}   {hit.card.kind}{f', {hit.card.stage}' if hit.card.stage else ''}"
        for line in hit.lines:
            yield textwrap.shorten(f"  {line}", WIDTH, placeholder=" ...", initial_indent="  ")
    if not hits:
        yield f"Nothing in the book has all of: {words}"


def shown_lines(shown: Shown, off: Sequence[Off], system: str) -> Iterator[str]:
    """All of a paper."""
    yield from card_lines([shown.card])
    yield ""
    for kept in shown.revisions:
        yield from hung(f"  revision {kept.revision:<4}{kept.day}  ", f"{kept.author}{_after(kept.note)}")
    if shown.standings:
        yield ""
        yield "How it stood"
        for standing in shown.standings:
            yield from hung(f"  {standing.day}  {standing.stage:10} ", f"{standing.author}{_after(standing.note)}")
    if off:
        yield ""
        yield "Said and found"
        for each in off:
            found, by = each.reading, size_words(each.off, each.dimension, system)
            words = f"said {found.said}, found {found.found}, off by {by}{_after(found.note)}"
            yield from hung(f"  {found.day}  {found.what}: ", words)
    if shown.orders:
        yield ""
        yield "Parts"
        yield from order_lines(shown.orders)
    if shown.quotes:
        yield ""
        yield "Priced"
        for quote in shown.quotes:
            least = "" if quote.whole else "at least "
            yield f"  {quote.day}  revision {quote.revision}: {least}{money(quote.total)}, by {quote.prices}"
    if shown.visits:
        yield ""
        yield "Visits"
        for visit in shown.visits:
            words = f"{visit.minutes:g} min, {visit.people} there{_after(visit.parts)}{_after(visit.note)}"
            yield from hung(f"  {visit.day}  {visit.work}: ", words)


def order_lines(orders: Sequence[Order]) -> Iterator[str]:
    """Parts ordered, come or sent back; lengths in metres, as they are kept."""
    for order in orders:
        unit = "" if order.unit == "piece" else f" {order.unit}"
        whom = f", {order.whom}" if order.whom else ""
        yield from hung(f"  {order.day}  {order.what:9} {order.count:>7.4g}{unit}  ", f"{order.part}{whom}")


def between_lines(found: Between) -> Iterator[str]:
    """What changed between two revisions, and which findings moved."""
    yield f"{found.first.name}   {found.first.words}"
    yield f"{' ' * len(found.first.name)}   {found.second.words}"
    yield ""
    if found.values is None:
        yield "One of them is no TOML: what changed cannot be told value by value."
    elif not found.values:
        same = found.first.text == found.second.text
        yield "Nothing changed." if same else "No value changed; comments or the layout did."
    for change in found.values or ():
        yield from hung(f"  {change.path}: ", f"{change.before or '(nothing)'} -> {change.after or '(nothing)'}")
    if not found.moved and not found.alike and not found.untold:
        return
    yield ""
    if found.untold:
        yield "Findings cannot be told apart, for one of the two cannot be judged:"
        yield from (f"  {line}" for line in found.untold.splitlines())
        return
    if found.price_before is not None and found.price_after is not None:
        more = found.price_after - found.price_before
        apart = "the same" if not more else f"{money(abs(more))} {'more' if more > 0 else 'less'}"
        yield f"Price {money(found.price_before)} -> {money(found.price_after)}, {apart}"
    yield f"Findings: {len(found.moved)} moved, {found.alike} say what they said"
    for moved in found.moved:
        yield from _moved_lines(moved)


def _moved_lines(moved: Moved) -> Iterator[str]:
    status = moved.before if moved.before == moved.after else f"{moved.before or 'none'} -> {moved.after or 'none'}"
    force = "" if moved.force == "must" else f" ({moved.force})"
    yield f"  {moved.name.replace('_', ' ')}{force}: {status}"
    yield from hung("    was  ", moved.said_before or "nothing")
    yield from hung("    now  ", moved.said_after or "nothing")


def requote_lines(found: Sequence[Requote], kept: bool) -> Iterator[str]:
    """Open jobs priced anew, and which picks change."""
    for each in found:
        name = each.card.last.name
        if each.now is None:
            yield from hung(f"{name}: ", f"cannot be priced: {' '.join(each.untold.split())}")
            continue
        least = "" if each.now.whole else "at least "
        if each.before is None:
            yield f"{name}: {least}{money(each.now.total)}, the first price put down"
            continue
        more = each.now.total - each.before.total
        apart = f"{money(abs(more))} {'more' if more > 0 else 'less'} than" if more else "as"
        yield f"{name}: {least}{money(each.now.total)}, {apart} on {each.before.day}"
        for pick in each.picks:
            yield from hung(f"  the pick changes: {pick.path}: ", f"{pick.before or 'none'} -> {pick.after or 'none'}")
    moved = sum(bool(each.picks) for each in found)
    yield f"{len(found)} open, {sum(each.now is not None for each in found)} priced, {moved} with another pick"
    if not kept:
        yield "Only shown: no price is put down."


def round_lines(found: Round) -> Iterator[str]:
    """A round: its days and stops, what the truck takes, and whom it leaves out."""
    day = None
    for stop in found.stops:
        if stop.day != day:
            day = stop.day
            yield f"{day:%A} {day.isoformat()}"
        yield from _stop_lines(stop)
    if not found.stops:
        yield f"Nobody is due for a {found.work}."
    else:
        yield ""
        stops = "1 stop" if len(found.stops) == 1 else f"{len(found.stops)} stops"
        yield f"{stops}, {found.minutes:.0f} min on the sites, {found.road:.0f} min on the road"
    if any(not stop.timed for stop in found.stops):
        yield "Roads with ~ nobody has timed: lakewright book way FROM TO MINUTES puts them down."
    if found.truck:
        yield ""
        yield "On the truck"
        yield from (f"  {count:>3}  {part}" for part, count in found.truck)
    if found.left_out:
        yield ""
        yield "Left out"
        for name, why in found.left_out:
            yield from hung(f"  {name}: ", " ".join(why.split()))


def _stop_lines(stop: Stop) -> Iterator[str]:
    call, hour, minute = stop.call, *divmod(round(stop.begin), 60)
    road = f"{'' if stop.timed else '~'}{stop.drive:.0f} min"
    words = f"{call.job}, {call.place}" if call.place != call.job else call.job
    people = f"{call.people} to go"
    yield from hung(f"  {hour:02d}:{minute:02d}  {road:>8} road  {call.minutes:>4.0f} min  ", f"{words}; {people}")
    for note in (*call.notes, *([stop.trouble] if stop.trouble else [])):
        yield from hung(f"{'':34}! ", note)


def ready_lines(found: Sequence[Ready]) -> Iterator[str]:
    """Visits that no invoice went out for."""
    for each in found:
        visit = each.visit
        yield from hung(
            f"{visit.day}  {money(each.amount):>10}  ",
            f"{visit.job}{f', {each.customer}' if each.customer else ''}: {visit.work}, {each.hours:g} h,"
            f" {visit.people} there, at {each.why}{_after(visit.parts)}",
        )
    yield f"{len(found)} ready to invoice, labour {money(sum(each.amount for each in found))}; parts and travel on top"


def tuned_lines(found: Sequence[Tuned], system: str) -> Iterator[str]:
    """What the record tunes."""
    for each in found:
        if each.bias is None or each.spread is None:
            yield f"{each.name}: {each.pairs} said and found; {each.wanted} are wanted before they tune anything"
            continue
        bias, spread = (size_words(size, each.dimension, system) for size in (each.bias, each.spread))
        yield f"{each.name}: {each.pairs} said and found; off by {bias} on the whole, give or take {spread}"
    if not found:
        yield "Nothing is put down as said and found yet."


def money(cents: int) -> str:
    """An amount with its cents.

    >>> money(1340864), money(-5)
    ('$13,408.64', '-$0.05')
    """
    from lakewright import units

    return units.show(float(cents), "money", "US")


def _after(words: str) -> str:
    return f"; {' '.join(words.split())}" if words else ""
