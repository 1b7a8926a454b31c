"""What the commands print, line by line: the same words for a terminal that the page and the paper have."""

from __future__ import annotations

import math
import shlex
import textwrap
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from lakewright.api.doubt import Doubted
    from lakewright.api.explain import Explanation
    from lakewright.api.stock import StockList
    from lakewright.api.waters import WaterCard
    from lakewright.api.where import Where
    from lakewright.first_answer import Answer
    from lakewright.search.doubt import Chance, Worth

WIDTH = 100


def as_typed(file: Path) -> str:
    """A file's name as one types it behind a command, where it has blanks in it or begins like an option."""
    name = str(file)
    return shlex.quote(f"./{name}" if name.startswith("-") else name)


def go_lines(go: bool, line: str, ways: Sequence[str]) -> Iterator[str]:
    """Go or no-go, and the ways out."""
    yield ""
    yield from textwrap.wrap(line if go else f"No go. {line}", WIDTH)
    for way in ways:
        yield f"  - {way}"


def stock_lines(found: StockList) -> Iterator[str]:
    """What can be had, a line a part, and what of the shop's own sheet could not be read."""
    name = max((len(row.name) for row in found.rows), default=0)
    price = max((len(row.counter) for row in found.rows), default=0)
    for row in found.rows:
        yield from hung(f"{row.name:{name}}  {row.counter:>{price}}  ", row.detail or " ")
    yield f"{len(found.rows)} parts. Counter prices. {found.note}"
    for mistake in found.mistakes:
        yield ""
        yield from str(mistake).splitlines()


def water_lines(card: WaterCard) -> Iterator[str]:
    """A water on record, and what it still lacks."""
    dam = {"yes": ", behind a dam", "no": ", no dam"}.get(card.dam, "")
    yield f"{card.name}   {card.kind}{dam}   {card.file.name}"
    for mistake in card.mistakes:
        yield from textwrap.indent(str(mistake), "  ").splitlines()
    if card.lacks:
        yield from hung("  still lacks  ", "; ".join(card.lacks))
    if card.unsigned:
        yield from hung("  unsigned     ", "; ".join(card.unsigned))
    yield ""


def answer_lines(answers: Sequence[Answer]) -> Iterator[str]:
    """What the caller is told first."""
    for answer in answers:
        yield ""
        yield from textwrap.wrap(f"> {answer.line}", WIDTH, subsequent_indent="  ")
        for head, rows in (("seen", answer.seen), ("do", answer.do), ("ask", answer.ask)):
            for number, row in enumerate(rows, start=1):
                mark = f"{number}. " if head == "do" else ""
                yield from hung(f"    {head if number == 1 else '':6}{mark}", row)


def hung(head: str, text: str) -> list[str]:
    """Text beside a head, its further lines hung under its first."""
    return textwrap.wrap(text, WIDTH, initial_indent=head, subsequent_indent=" " * len(head), break_on_hyphens=False)


def explanation_lines(found: Explanation) -> Iterator[str]:
    """What a check asks, of what, and where its figures come from."""
    check = found.check
    yield check.name.replace("_", " ")
    yield from textwrap.wrap(check.question, WIDTH)
    yield ""
    yield f"force    {check.force}"
    yield f"at       {check.at}"
    yield f"judged   in every case of the list: {check.cases}"
    yield from hung("if not   ", check.remedy)
    yield ""
    for figure in found.figures:
        text = f"{figure.name:26} {figure.text:>10}   {figure.why} ({figure.source})"
        yield from textwrap.wrap(text, WIDTH, subsequent_indent=" " * 40)
    yield ""
    for kind in ("centrifugal", "jet"):
        yield from hung(f"rests on, {kind + ':':13}", _by_table(check.facts_needed(kind)) or "not asked of one")
    for rule in found.rules:
        yield from hung("rule     ", rule)
    yield ""
    for source in found.sources:
        yield from hung(f"{source.id:17} ", f"{source} ({source.standing})")


def _by_table(needs: Sequence[str]) -> str:
    """Facts gathered under their tables."""
    tables: dict[str, list[str]] = {}
    for need in needs:
        table, _, field = need.partition(".")
        tables.setdefault(table, []).append(field)
    return "; ".join(f"{table} {', '.join(fields)}" for table, fields in tables.items())


def doubt_lines(found: Doubted) -> Iterator[str]:
    """How sure a job is, for the shop: a customer's paper never carries a figure of it."""
    doubt = found.doubt
    yield f"{found.title or 'Job'}   how sure, over {doubt.truths:,} sites that would be told like this one"
    if doubt.waits:
        yield from textwrap.wrap(
            f"Nobody can say how many of 100 hold: {len(doubt.waits)} musts wait for what design chooses or nobody has "
            "said. Below is what can be said of the rest.",
            WIDTH,
        )
    else:
        yield from hung(f"{in_a_hundred(doubt.job)} of 100 hold   ", "every must, together")
    sure = [each for each in doubt.checks if in_a_hundred(each) == "all"]
    doubtful = sorted((each for each in doubt.checks if each not in sure), key=lambda each: each.chance)
    yield ""
    for each in doubtful:
        force = "" if each.force == "must" else f" ({each.force})"
        yield f"  {in_a_hundred(each):>8} of 100   {each.check.replace('_', ' ')}{force}"
    if sure:
        yield from hung("       all          ", ", ".join(each.check.replace("_", " ") for each in sure))
    if doubt.unknown:
        yield from hung("  nobody knows      ", ", ".join(name.replace("_", " ") for name in doubt.unknown))
    yield ""
    yield from worth_lines(doubt.worth)
    yield ""
    yield "Taken to be off by, two times out of three"
    for known in found.unknowns:
        whose = "our own record" if known.name in found.own else known.standing or "said, without whose word"
        yield f"  {known.name:34}{size_words(known.deviation(), known.dimension, found.units):>10}   {whose}"
    if found.second:
        yield ""
        yield "A second view: share of the spread of the worst margin, alone and with all it meets (Sobol)"
        for index in sorted(found.second, key=lambda one: -one.total):
            ends = "{:.2f} to {:.2f}".format(*index.first_ends)
            yield f"  {index.unknown.name:34}{index.first:6.2f} ({ends})   {index.total:6.2f}"


def worth_lines(worth: Sequence[Worth]) -> Iterator[str]:
    """The same, line by line."""
    head, rows = worth_words(worth)
    if head == BEFORE_WE_ORDER:
        yield head
        for number, row in enumerate(rows, start=1):
            yield from hung(f"  {number}. ", row)
        return
    yield head
    if rows:
        yield from hung("What would clear the most doubt: ", "; ".join(rows))


BEFORE_WE_ORDER = "Before we order"


def worth_words(worth: Sequence[Worth]) -> tuple[str, list[str]]:
    """What to measure, the most useful first, under its head; what would change nothing is not named."""
    from lakewright.search.doubt import WORTH_A_WORD

    turning = [each for each in worth if each.surer > max(2.0 * each.error, 0.0005)]
    clearing = [each for each in worth if each not in turning and each.clears > WORTH_A_WORD]
    if turning:
        rows = [f"{each.unknown.do}: {100.0 * each.surer:.1f} more of 100 decided rightly" for each in turning]
        return BEFORE_WE_ORDER, rows
    return "No single measurement would change what we decide.", [each.unknown.do for each in clearing[:3]]


def in_a_hundred(chance: Chance) -> str:
    """How many of a hundred hold, and give or take how many; never all of them but where all did.

    >>> from lakewright.search.doubt import Chance
    >>> [in_a_hundred(Chance("", "must", each, 0.001)) for each in (1.0, 0.9996, 0.913, 0.0004, 0.0)]
    ['all', 'over 99', '91', 'under 1', 'none']
    """
    if chance.chance in (0.0, 1.0):
        return "all" if chance.chance else "none"
    if chance.chance > 0.995:
        return "over 99"
    return "under 1" if chance.chance < 0.005 else f"{100.0 * chance.chance:.0f}"


def size_words(size: float, dimension: str, system: str) -> str:
    """How far something is off, in the units of its dimension."""
    from lakewright import units

    if dimension == "temperature_difference":
        return f"{size * 1.8:.1f} F" if system == "US" else f"{size:.1f} C"
    return units.show(size, "depth" if dimension == "length" else dimension, system)


def where_lines(found: Where) -> Iterator[str]:
    """The best place for the stand and why, and the places along the soundings at which something changes."""
    from lakewright import units
    from lakewright.api.where import telling

    system, pick = found.units, found.found.pick
    yield f"{found.title}: {pick.name}"
    yield ""
    for reason in found.found.reasons:
        yield from hung("  - ", reason)
    yield ""
    for spot in telling(found.found):
        mark = "*" if spot is pick else " "
        line = units.show(spot.line, "length", system)
        coil = "" if math.isnan(spot.price) else f", {units.show(spot.price, 'money', system)} in whole coils"
        yield f"{mark} {spot.name}: {spot.status}; {line} of line{coil}"
        if spot.status != "holds":
            yield from hung("      ", f"{spot.worst.name.replace('_', ' ')}: {spot.worst.message}")
    yield ""
    yield "Figures as this version knows them; local rules and whoever holds them decide where an intake may stand."
