"""What revisions come to: which findings moved between two, and what open jobs cost when prices change."""

from __future__ import annotations

import json
import sqlite3
import tempfile
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from lakewright.api.book import FILES_NAMED, Card, Signed, card_of, file_name
from lakewright.book import papers
from lakewright.book.changes import Change, changes, words_at
from lakewright.book.file import BookFile
from lakewright.book.papers import Revision
from lakewright.book.records import Order, Quoted, all_of, put
from lakewright.errors import AskError, JobError, LakewrightError

if TYPE_CHECKING:
    from lakewright.report import Report
    from lakewright.stock.load import Stock


Progress = Callable[[int, int], None]


@dataclass(frozen=True)
class Moved:
    """A finding that is not what it was: its status and its words, before and after; empty where there was none."""

    name: str
    force: str
    before: str
    after: str
    said_before: str
    said_after: str


@dataclass(frozen=True)
class Between:
    """What changed between two revisions; `values` None where one is no TOML; prices [cents], None where there is none.

    untold : why findings cannot be told apart, empty where they can
    """

    first: Revision
    second: Revision
    values: tuple[Change, ...] | None
    moved: tuple[Moved, ...]
    alike: int  # findings that say what they said
    price_before: int | None
    price_after: int | None
    untold: str = ""


@dataclass(frozen=True)
class Requote:
    """A job priced anew, and what it was priced at last; prices in cents.

    picks : what design now takes and took, by its place in the job file
    untold : why it cannot be priced, empty where it can
    """

    card: Card
    before: Quoted | None
    now: Quoted | None
    picks: tuple[Change, ...] = ()
    untold: str = ""


def between(book: BookFile, name: str, first: int, second: int, kind: str = "job") -> Between:
    """What changed between two revisions, and which findings of a job moved, by waters and prices as they now are.

    Raises
    ------
    AskError where there is no such revision
    """
    with book.reading() as rows:
        before, after = (papers.revision_of(rows, kind, name, number) for number in (first, second))
    values = changes(before.text, after.text)
    found = Between(before, after, None if values is None else tuple(values), (), 0, None, None)
    if kind != "job":
        return found
    try:
        reports = [report_of(book, each) for each in (before, after)]
    except LakewrightError as error:
        return replace(found, untold=str(error))
    moved = tuple(_moved(*reports))
    price_before, price_after = (each.priced.quote.total if each.priced else None for each in reports)
    alike = len(reports[1].findings) - sum(bool(each.after) for each in moved)
    return replace(found, moved=moved, alike=alike, price_before=price_before, price_after=price_after)


def requote(
    book: BookFile,
    own: Path | None,
    signed: Signed,
    keep: bool = True,
    progress: Progress | None = None,
    only: str = "",
) -> list[Requote]:
    """Price every open job anew, beside what it was priced at last; one that cannot be priced does not stop the rest.

    Parameters
    ----------
    own : the shop's own sheet of prices, over ours
    keep : whether the new prices are put down in the book, each as soon as it is found
    progress : told how many are done, and of how many
    only : the one job that is asked for, where one is

    Raises
    ------
    AskError where the sheet, or the book, cannot be used
    """
    stock, prices = _stock(own)
    with book.reading() as rows:
        names = [only] if only else papers.names(rows, "job")
        cards = [card for name in names if (card := card_of(rows, "job", name)).is_open]
    found = []
    for number, card in enumerate(cards):
        if progress is not None:
            progress(number, len(cards))
        each = _requoted(book, card, stock, prices, signed)
        if keep and each.now is not None:
            with book.writing() as rows:
                each = replace(each, now=put(rows, each.now))
        found.append(each)
    return found


def order_all(book: BookFile, name: str, whom: str, signed: Signed) -> list[Order]:
    """Put down an order of every part of a job's bill that is not there and is not ordered yet. Returns the orders.

    Raises
    ------
    JobError where the job cannot be used; AskError where its bill lacks something, or it is not in the book
    """
    with book.reading() as rows:
        last = papers.latest(rows, "job", name)
        ordered = {each.part for each in all_of(rows, Order, name)}
    report = report_of(book, last)
    if report.priced is None or report.priced.bill.gaps:
        gaps = "; ".join(report.priced.bill.gaps) if report.priced else "no suction pump will do"
        raise AskError(f"{name} has no whole bill: {gaps}; design it first, or order part by part")
    wanted: dict[tuple[str, str], float] = {}
    for line in report.priced.bill.lines:
        if not line.have and line.what not in ordered:
            wanted[line.what, line.unit] = wanted.get((line.what, line.unit), 0.0) + line.quantity
    orders = [
        Order(job=name, part=part, count=count, unit=unit, whom=whom, day=signed.day, author=signed.author)
        for (part, unit), count in wanted.items()
    ]
    with book.writing() as rows:
        return [put(rows, each) for each in orders]


@contextmanager
def placed(book: BookFile, kept: Revision) -> Iterator[Path]:
    """Where a revision of a job would lie as a file, with the waters and the files it names beside it, for a while.

    Mistakes found there are called by the job's name, and not by the place.
    """
    with book.reading() as rows:
        beside = list(_files_beside(rows, kept))
    with scratch() as folder:
        path = folder / "job.toml"
        try:
            for name, text in beside:
                (folder / name).parent.mkdir(exist_ok=True)
                (folder / name).write_bytes(text.encode())
        except OSError as error:
            raise AskError(f"{folder}: {error.strerror or error}; make room on the disk") from None
        try:
            yield path
        except JobError as error:
            label = f"{kept.name}, revision {kept.revision}"
            named = [replace(m, file=label if m.file == str(path) else Path(m.file).name) for m in error.mistakes]
            raise JobError(named, kept.name) from None


@contextmanager
def scratch() -> Iterator[Path]:
    """A folder for a while, where there is room for one.

    Raises
    ------
    AskError where there is none
    """
    try:
        made = tempfile.TemporaryDirectory(prefix="lakewright-", ignore_cleanup_errors=True)
    except OSError as error:
        raise AskError(f"no folder can be made for a while: {error.strerror or error}; make room on the disk") from None
    with made as name:
        yield Path(name)


def report_of(book: BookFile, kept: Revision, stock: Stock | None = None) -> Report:
    """The report on a revision of a job, as `check` makes it.

    Raises
    ------
    JobError where it cannot be used
    """
    from lakewright.api.read import assembled
    from lakewright.api.report import report_on

    with placed(book, kept) as path:
        job, had, assembly = assembled(kept.text, path, stock)
        return report_on(job, assembly, stock=had)


def _files_beside(rows: sqlite3.Connection, kept: Revision) -> Iterator[tuple[str, str]]:
    for number, name in enumerate(papers.names(rows, "water")):
        yield f"waters/water{number}.toml", papers.latest(rows, "water", name).text
    job = papers.number_of(rows, "job", kept.name)
    for named in words_at(kept.text, *FILES_NAMED):
        if Path(named).name == named and papers.number_of(rows, "file", file_name(job, named)):
            yield named, _text_then(rows, file_name(job, named), kept)


def _text_then(rows: sqlite3.Connection, name: str, kept: Revision) -> str:
    """The text that a file beside a job had while a revision was the last; what it has now where it came later."""
    later = rows.execute(
        "select min(number) from revisions where number > ? and paper = (select paper from revisions where number = ?)",
        (kept.number, kept.number),
    ).fetchone()[0]
    of_file = papers.revisions(rows, "file", name)
    return next((each.text for each in of_file if later is None or each.number < later), of_file[-1].text)


def _moved(before: Report, after: Report) -> Iterator[Moved]:
    """Findings whose status moved, then those that say another figure, each in the order of the later report."""
    old, new = ({f.name: f for f in report.findings} for report in (before, after))
    pairs = [(old.get(name), new.get(name)) for name in [*new, *(name for name in old if name not in new)]]
    moved = [
        Moved(
            name=some.name,
            force=some.force,
            before=was.status if was else "",
            after=now.status if now else "",
            said_before=was.message if was else "",
            said_after=now.message if now else "",
        )
        for was, now in pairs
        if (some := now or was) is not None
        and (was is None or now is None or (was.status, was.message) != (now.status, now.message))
    ]
    yield from sorted(moved, key=lambda each: each.before == each.after)


def _stock(own: Path | None) -> tuple[Stock, str]:
    from lakewright.stock.load import load_stock
    from lakewright.stock.overlay import overlay

    if own is None:
        return load_stock(), "the stock that comes with it"
    if not own.is_file():
        raise AskError(f"{own}: no such file; name the sheet of prices")
    stock, mistakes = overlay(load_stock(), own)
    if mistakes:
        raise JobError(mistakes, own.name)
    return stock, own.name


def _requoted(book: BookFile, card: Card, stock: Stock, prices: str, signed: Signed) -> Requote:
    with book.reading() as rows:
        before = next(reversed(all_of(rows, Quoted, card.last.name)), None)
    try:
        total, whole, pick = _priced(book, card.last, stock)
    except LakewrightError as error:
        return Requote(card, before, None, untold=str(error))
    now = Quoted(
        job=card.last.name,
        revision=card.last.revision,
        total=total,
        whole=int(whole),
        pick=json.dumps(pick, ensure_ascii=False),
        prices=prices,
        day=signed.day,
        author=signed.author,
    )
    was: Mapping[str, str] = json.loads(before.pick) if before is not None else pick
    picks = [
        Change(place, was.get(place, ""), pick.get(place, ""))
        for place in dict.fromkeys([*pick, *was])
        if was.get(place, "") != pick.get(place, "")
    ]
    return Requote(card, before, now, tuple(picks))


def _priced(book: BookFile, kept: Revision, stock: Stock) -> tuple[int, bool, dict[str, str]]:
    """Price [cents], whether it is whole, and what design takes where something is left open."""
    pick: dict[str, str] = {}
    if '"open"' in kept.text or "'open'" in kept.text:
        from lakewright.api.design import designed

        with placed(book, kept) as path:
            choice = designed(kept.text, path, stock=stock)
        rows_of_choice = choice.shortlist or choice.near_misses
        if choice.pick is None or choice.pick.priced is None or not rows_of_choice:
            raise AskError(choice.why or "nothing is picked")
        report, pick = choice.pick, dict(rows_of_choice[0].writes)
    else:
        report = report_of(book, kept, stock)
    if report.priced is None:
        raise AskError(report.first_line)
    return report.priced.quote.total, not report.priced.quote.missing, pick
