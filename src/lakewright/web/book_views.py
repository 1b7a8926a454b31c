"""Views of the book, each as a piece of HTML: jobs, one of them, what changed, readings, prices, the round, copies."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any

from markupsafe import Markup

from lakewright.api.book import KINDS, OPEN_STAGES, STAGES, BookFile, listed, search, shown
from lakewright.api.book_checks import Requote, between
from lakewright.api.book_drafts import Facing, book_name
from lakewright.api.book_readings import off_by, tuned_of
from lakewright.api.book_round import BEFORE, ready, round_of
from lakewright.api.drafts import Book
from lakewright.errors import AskError
from lakewright.lines import size_words
from lakewright.state.unknowns import names_of_unknowns
from lakewright.web.money import dollars
from lakewright.web.posts import day_of, number_of, text_of, today
from lakewright.web.view import render


def shell(answer: Mapping[str, Any]) -> str:
    """The leaf: who one is, the draft, and a view of the book."""
    pieces = {name: Markup(answer[name]) for name in ("html", "draft", "trouble")}
    return render("leaf_book.html", **pieces)


def draft_box(origin: tuple[str, int] | None, drafts: Book, file: Path, book: BookFile) -> str:
    """What the draft of a file is of, and how it is kept."""
    last = shown(book, "job", origin[0]).card.last if origin else None
    return render("book_draft.html", origin=origin, last=last, name=book_name(drafts, file))


def jobs(book: BookFile, given: Mapping[str, Any]) -> str:
    """The jobs, or those papers that hold some words, or the jobs that stand so."""
    words, stage = text_of(given, "words").strip(), text_of(given, "stage")
    cards = listed(book, "job", stage)
    hits = search(book, words) if words else []
    if stage:
        hits = [hit for hit in hits if hit.card.stage == stage]
    values = {"words": words, "stage": stage, "stages": STAGES, "cards": cards, "hits": hits}
    return render("book_jobs.html", **values)


def paper(book: BookFile, given: Mapping[str, Any]) -> str:
    """All of a job, or of a water or a customer."""
    kind = text_of(given, "kind") or "job"
    if kind not in KINDS:
        raise AskError(f"found {kind!r}; wanted one of: {', '.join(KINDS)}")
    found = shown(book, kind, text_of(given, "name"))
    off = [
        (each.reading, size_words(each.off, each.dimension, found.card.units))
        for each in (off_by(found.found) if found.found else ())
    ]
    quotes = [(quote, dollars(quote.total)) for quote in found.quotes]
    return render(
        "book_job.html", kind=kind, found=found, off=off, quotes=quotes, stages=STAGES, unknowns=names_of_unknowns()
    )


def changed(book: BookFile, given: Mapping[str, Any]) -> str:
    """What changed between two revisions of a job, and which findings moved."""
    name, kind = text_of(given, "name"), text_of(given, "kind") or "job"
    first, second = number_of(given, "first"), number_of(given, "second")
    found = between(book, name, first, second, kind)
    prices = [None if price is None else dollars(price) for price in (found.price_before, found.price_after)]
    return render("book_between.html", found=found, prices=prices)


def readings(book: BookFile, _: Mapping[str, Any]) -> str:
    """What was said and found over the years and all jobs, and what it tunes."""
    rows = [
        {
            "name": each.name,
            "pairs": each.pairs,
            "wanted": each.wanted,
            "off": None if each.bias is None else size_words(each.bias, each.dimension, "US"),
            "spread": None if each.spread is None else size_words(each.spread, each.dimension, "US"),
        }
        for each in tuned_of(book)
    ]
    return render("book_readings.html", rows=rows)


def prices(book: BookFile, _: Mapping[str, Any]) -> str:
    """The jobs whose price may still move."""
    cards = [card for card in listed(book) if card.stage in OPEN_STAGES]
    return render("book_prices.html", cards=cards)


def prices_rows(found: Sequence[Requote]) -> str:
    """Jobs priced anew, a row each."""
    rows = [
        {
            "each": each,
            "now": each.now and dollars(each.now.total),
            "before": each.before and dollars(each.before.total),
            "more": dollars(abs(each.now.total - each.before.total)) if each.now and each.before else "",
            "dearer": bool(each.now and each.before and each.now.total > each.before.total),
            "same": bool(each.now and each.before and each.now.total == each.before.total),
        }
        for each in found
    ]
    return render("book_prices_rows.html", rows=rows)


def rounds(book: BookFile, given: Mapping[str, Any]) -> str:
    """The service round, and what is ready to invoice."""
    work, first = text_of(given, "work"), text_of(given, "first") or today()
    found = round_of(book, work, day_of(first)) if work else None
    invoices = [(each, dollars(each.amount)) for each in ready(book)]
    return render("book_round.html", works=tuple(BEFORE), work=work, first=first, found=found, invoices=invoices)


def copies(book: BookFile, _: Mapping[str, Any]) -> str:
    """The book out, in, and as a copy."""
    return render("book_copies.html", empty=not any(listed(book, kind) for kind in KINDS), place=book.path.name)


def facing_view(found: Facing) -> str:
    """A draft that was refused, and the other revision beside it, value by value, each to be chosen."""
    return render("book_facing.html", found=found)


VIEWS: Mapping[str, Callable[[BookFile, Mapping[str, Any]], str]] = {
    "jobs": jobs,
    "job": paper,
    "between": changed,
    "readings": readings,
    "prices": prices,
    "round": rounds,
    "copies": copies,
}
"""The views by their names."""
