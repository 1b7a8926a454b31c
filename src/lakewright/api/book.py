"""The book: keep jobs, waters and customers by revisions, and what is said and done about them; find them again.

Days and authors come from whoever calls. Every function takes an open book, and writes all of it or nothing.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator, Sequence
from dataclasses import astuple, dataclass
from pathlib import Path

from lakewright.book import papers
from lakewright.book.changes import words_at
from lakewright.book.file import BookFile, usual_book
from lakewright.book.papers import KINDS, Edit, Revision
from lakewright.book.records import (
    CAME,
    OPEN_STAGES,
    ORDERED,
    SENT_BACK,
    STAGES,
    WORKS,
    Found,
    Order,
    Quoted,
    Record,
    Standing,
    Visit,
    Way,
    all_of,
    put,
    standing_of,
)
from lakewright.errors import AskError
from lakewright.job.disk import beside
from lakewright.job.naming import folded
from lakewright.job.read import read_text

__all__ = [
    "CAME", "KINDS", "OPEN_STAGES", "ORDERED", "SENT_BACK", "STAGES", "WORKS", "BookFile", "Card", "Found", "Hit",
    "Order", "Revision", "Shown", "Signed", "Standing", "Visit", "Way", "add",
    "listed", "put_down", "revision_text", "save", "search", "shown", "usual_book", "write_revision",
]  # fmt: skip

FILES_NAMED = ("site.soundings_file", "site.levels.record")
"""Where a job names files that lie beside it, and are kept with it."""

LINES_SHOWN = 3
"""ours: lines of a find that are shown."""


@dataclass(frozen=True)
class Signed:
    """Who says so, and on which day."""

    author: str
    day: str


@dataclass(frozen=True)
class Card:
    """A paper in a line: of a job, how it stands too."""

    kind: str
    last: Revision
    stage: str = ""
    since: str = ""
    customer: str = ""
    water: str = ""

    @property
    def units(self) -> str:
        """The units a job is written in."""
        return "SI" if words_at(self.last.text, "job.units") == ("SI",) else "US"

    @property
    def is_open(self) -> bool:
        """Whether its price may still move."""
        return self.stage in OPEN_STAGES


@dataclass(frozen=True)
class Hit:
    """A paper in which all words were found, and the lines that hold any."""

    card: Card
    lines: tuple[str, ...]


@dataclass(frozen=True)
class Shown:
    """All of a paper: its revisions, the last first, and of a job what was put down, in that order."""

    card: Card
    revisions: tuple[Revision, ...]
    standings: tuple[Standing, ...] = ()
    found: tuple[Found, ...] = ()
    orders: tuple[Order, ...] = ()
    quotes: tuple[Quoted, ...] = ()
    visits: tuple[Visit, ...] = ()


def add(
    book: BookFile, file: Path, kind: str, name: str, signed: Signed, note: str = "", text: str | None = None
) -> Revision:
    """Keep a file as a new paper. A job brings the files it names, and its water's record where that lies beside it.

    Parameters
    ----------
    name : what the book calls it; that which the file gives it where it is empty, else the file's own
    text : what is kept where that is not what the file says, as of a draft

    Raises
    ------
    JobError where the file cannot be read; AskError where the name is taken, or the book cannot be used
    """
    text = read_text(file) if text is None else text
    (said,) = words_at(text, "job.title" if kind == "job" else "name")
    with book.writing() as rows:
        kept = papers.add(rows, kind, name or said or file.stem, Edit(text, signed.author, signed.day, note))
        if kind == "job":
            put(rows, Standing(job=kept.name, stage="asked", day=signed.day, author=signed.author))
            _keep_beside(rows, file, kept, signed)
        return kept


def save(
    book: BookFile,
    file: Path,
    kind: str,
    name: str,
    on: int,
    signed: Signed,
    note: str = "",
    text: str | None = None,
) -> Revision:
    """Keep a file, or a text in its place, as a further revision of a paper, made on revision `on`.

    Raises
    ------
    StaleError where another was kept after that one: nothing is written, and both are shown beside each other
    JobError, AskError as for `add`
    """
    text = read_text(file) if text is None else text
    with book.writing() as rows:
        kept = papers.save(rows, kind, name, on, Edit(text, signed.author, signed.day, note))
        if kind == "job":
            _keep_beside(rows, file, kept, signed)
        return kept


def revision_text(book: BookFile, kind: str, name: str, revision: int = 0) -> Revision:
    """A revision of a paper, the last where none is named.

    Raises
    ------
    AskError where there is none
    """
    with book.reading() as rows:
        if revision:
            return papers.revision_of(rows, kind, name, revision)
        return papers.latest(rows, kind, name)


def write_revision(kept: Revision, to: Path) -> None:
    """Write a revision to a new file, byte by byte.

    Raises
    ------
    AskError where it cannot be written there
    """
    from lakewright.api.design import write_new_job

    write_new_job(kept.text, to)


def listed(book: BookFile, kind: str = "job", stage: str = "") -> list[Card]:
    """The papers of a kind in the order they were kept, of jobs those that stand so where a stage is named.

    Raises
    ------
    AskError where there is no such stage
    """
    if stage and stage not in STAGES:
        raise AskError(f"found {stage!r}; wanted one of: {', '.join(STAGES)}")
    with book.reading() as rows:
        cards = [card_of(rows, kind, name) for name in papers.names(rows, kind)]
    return [card for card in cards if not stage or card.stage == stage]


def search(book: BookFile, words: str) -> list[Hit]:
    """Every paper that holds all the words, in its last revision or in what was put down of it."""
    wanted = folded(words).split()
    hits = []
    with book.reading() as rows:
        for kind in KINDS:
            for name in papers.names(rows, kind):
                card = card_of(rows, kind, name)
                lines = list(_lines(rows, card))
                whole = folded(" ".join(lines))
                if wanted and all(word in whole for word in wanted):
                    hits.append(Hit(card, _nearest(lines, wanted)))
    return hits


def shown(book: BookFile, kind: str, name: str) -> Shown:
    """All of one paper.

    Raises
    ------
    AskError where there is none
    """
    with book.reading() as rows:
        card, kept = card_of(rows, kind, name), tuple(papers.revisions(rows, kind, name))
        if kind != "job":
            return Shown(card, kept)
        return Shown(
            card,
            kept,
            tuple(all_of(rows, Standing, name)),
            tuple(all_of(rows, Found, name)),
            tuple(all_of(rows, Order, name)),
            tuple(all_of(rows, Quoted, name)),
            tuple(all_of(rows, Visit, name)),
        )


def put_down(book: BookFile, record: Standing | Found | Order | Way) -> None:
    """Add a standing, a reading, an order or a way. A reading is refused where said and found cannot be read.

    Raises
    ------
    AskError where its job is not in the book, or what it says has no meaning
    """
    if isinstance(record, Found):
        from lakewright.state.unknowns import difference

        difference(record.what, record.said, record.found, record.job)
    with book.writing() as rows:
        put(rows, record)


def card_of(rows: sqlite3.Connection, kind: str, name: str) -> Card:
    """A paper in a line.

    Raises
    ------
    AskError where there is none
    """
    last = papers.latest(rows, kind, name)
    if kind != "job":
        return Card(kind, last)
    stands = standing_of(rows, name)
    stage, since = (stands.stage, stands.day) if stands else ("", "")
    return Card(kind, last, stage, since, *words_at(last.text, "job.customer", "site.water"))


def file_name(number: int, named: str) -> str:
    """What the book calls a file that a job names: by the job's number in the book."""
    return f"{number}/{named}"


def _keep_beside(rows: sqlite3.Connection, file: Path, kept: Revision, signed: Signed) -> None:
    """Keep what lies beside a job file and it names: files, its water where the book has none, and its customer."""
    number = papers.number_of(rows, "job", kept.name)
    customer, water, *files = words_at(kept.text, "job.customer", "site.water", *FILES_NAMED)
    for named in files:
        if named and (path := beside(file.parent, named)) is not None:
            _keep(rows, "file", file_name(number, named), Edit(read_text(path), *astuple(signed)))
    if customer and not papers.number_of(rows, "customer", customer):
        import json

        # JSON's quoting is TOML's, but for DEL, which no name has.
        text = f"name = {json.dumps(papers.usable_name(customer), ensure_ascii=False)}\n"
        papers.add(rows, "customer", customer, Edit(text, signed.author, signed.day))
    if water and not papers.number_of(rows, "water", water):
        from lakewright.job.read_water import water_files

        for record in water_files(file.parent / "waters"):
            text = read_text(record)
            (said,) = words_at(text, "name")
            if folded(water) in (folded(said), folded(record.stem)):
                papers.add(rows, "water", said or record.stem, Edit(text, signed.author, signed.day))
                break


def _keep(rows: sqlite3.Connection, kind: str, name: str, edit: Edit) -> None:
    if papers.number_of(rows, kind, name):
        papers.save(rows, kind, name, papers.latest(rows, kind, name).revision, edit)
    else:
        papers.add(rows, kind, name, edit)


def _nearest(lines: Sequence[str], words: Sequence[str]) -> tuple[str, ...]:
    """The lines that hold most of some words."""
    counts = {line.strip(): sum(word in folded(line) for word in words) for line in lines}
    return tuple(sorted(filter(counts.__getitem__, counts), key=lambda line: -counts[line]))[:LINES_SHOWN]


def _lines(rows: sqlite3.Connection, card: Card) -> Iterator[str]:
    yield card.last.name
    yield from card.last.text.splitlines()
    if card.kind == "job":
        kinds: tuple[type[Record], ...] = (Standing, Found, Order, Visit)
        for record in (each for kind in kinds for each in all_of(rows, kind, card.last.name)):
            yield "  ".join(str(value) for value in astuple(record)[2:] if value)
