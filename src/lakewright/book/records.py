"""What is added to the book beside papers: how jobs stand, what was found, ordered, quoted and done."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Sequence
from dataclasses import astuple, dataclass, fields, replace
from typing import TypeVar

from lakewright.book.papers import must_number, usable_day, usable_line
from lakewright.errors import AskError
from lakewright.job.naming import folded

STAGES = {
    "asked": "somebody has asked; nothing is looked at yet",
    "looked at": "the site has been seen, or told well enough to price",
    "priced": "the customer has a price",
    "said yes": "the customer takes it",
    "ordered": "the parts are ordered",
    "built": "the stand is built at the bench",
    "put in": "it is in the water and runs",
    "wintered": "hauled out or drained for the winter",
    "let go": "nothing came of it, or it is gone",
}
"""ours: how a job stands, in the order it goes; from wintered it goes back to put in each spring."""

OPEN_STAGES = ("asked", "looked at", "priced")
"""ours: until the customer takes it, a price may still move."""

WORKS = {"haul-out": "wintered", "start-up": "put in", "repair": ""}
"""What a visit is for, and how the job stands after it, where that moves it."""

ORDERED, CAME, SENT_BACK = "ordered", "came", "sent back"


@dataclass(frozen=True, kw_only=True)
class Standing:
    """How a job stands from a day on."""

    number: int = 0
    job: str
    stage: str
    note: str = ""
    day: str
    author: str


@dataclass(frozen=True, kw_only=True)
class Found:
    """What was said of something and what was found, with their units; `what` is an unknown of `unknowns.toml`."""

    number: int = 0
    job: str
    what: str
    said: str
    found: str
    note: str = ""
    day: str
    author: str


@dataclass(frozen=True, kw_only=True)
class Order:
    """A part ordered, come, or sent back: how many pieces, or metres."""

    number: int = 0
    job: str
    what: str = ORDERED
    part: str
    count: float
    unit: str = "piece"
    whom: str = ""
    day: str
    author: str


@dataclass(frozen=True, kw_only=True)
class Quoted:
    """What a revision was priced at [cents].

    whole : 1 where nothing is missing in it; pick : what design chose, as JSON; prices : whose prices they were
    """

    number: int = 0
    job: str
    revision: int
    total: int
    whole: int
    pick: str = "{}"
    prices: str = ""
    day: str
    author: str


@dataclass(frozen=True, kw_only=True)
class Visit:
    """A visit that was made; minutes of each of the people, on the site."""

    number: int = 0
    job: str
    work: str
    minutes: float
    people: int = 1
    parts: str = ""
    note: str = ""
    day: str
    author: str


@dataclass(frozen=True, kw_only=True)
class Invoice:
    """A visit for which an invoice went out."""

    number: int = 0
    visit: int
    day: str
    author: str


@dataclass(frozen=True, kw_only=True)
class Way:
    """Minutes on the road between two places: waters, or the shop."""

    number: int = 0
    start: str
    finish: str
    minutes: float
    day: str
    author: str


Record = Standing | Found | Order | Quoted | Visit | Invoice | Way
Kind = TypeVar("Kind", bound=Record)

TABLES: dict[type, str] = {
    Standing: "standings",
    Found: "readings",
    Order: "orders",
    Quoted: "quotes",
    Visit: "visits",
    Invoice: "invoices",
    Way: "ways",
}
"""The table of each kind of record, in an order in which each stands on those before."""


def columns_of(kind: type) -> tuple[str, ...]:
    """The columns of a kind of record, as in its table; `job` is there the number of the paper."""
    return tuple(field.name for field in fields(kind))


def put(book: sqlite3.Connection, record: Kind) -> Kind:
    """Add a record, with the next number where it has none.

    Raises
    ------
    AskError where its job is not in the book, or what it says has no meaning
    """
    refuse_meaningless(record)
    values = dict(zip(columns_of(type(record)), astuple(record), strict=True))
    if "job" in values:
        values["job"] = must_number(book, "job", values["job"])
    values["number"] = record.number or None
    marks = ", ".join("?" * len(values))
    done = book.execute(
        f"insert into {TABLES[type(record)]} ({', '.join(values)}) values ({marks}) returning number",
        tuple(values.values()),
    )
    return replace(record, number=int(done.fetchone()[0]))


def all_of(book: sqlite3.Connection, kind: type[Kind], job: str = "") -> list[Kind]:
    """The records of a kind in the order they were added, of one job where one is named.

    Raises
    ------
    AskError where the job is not in the book
    """
    table, columns = TABLES[kind], columns_of(kind)
    if "job" not in columns:
        return [kind(**dict(zip(columns, row, strict=True)))
                for row in book.execute(f"select {', '.join(columns)} from {table} order by number")]  # fmt: skip
    named = ["papers.name" if column == "job" else f"{table}.{column}" for column in columns]
    where, what = ("where job = ?", (must_number(book, "job", job),)) if job else ("", ())
    rows = book.execute(
        f"select {', '.join(named)} from {table} join papers on papers.number = job {where} order by {table}.number",
        what,
    )
    return [kind(**dict(zip(columns, row, strict=True))) for row in rows]


def standing_of(book: sqlite3.Connection, job: str) -> Standing | None:
    """How a job stands: what was said last, whatever day that was."""
    found = all_of(book, Standing, job)
    return found[-1] if found else None


def minutes_between(ways: Sequence[Way]) -> dict[frozenset[str], float]:
    """Minutes between two places by their folded names, either way round; the last said counts."""
    return {frozenset((folded(way.start), folded(way.finish))): way.minutes for way in ways}


def refuse_meaningless(record: Record) -> None:
    """Refuse a record with a word or a figure that has no meaning there.

    Raises
    ------
    AskError with what was wanted
    """
    choices = {"stage": (Standing, STAGES), "work": (Visit, WORKS), "what": (Order, (ORDERED, CAME, SENT_BACK))}
    for key, (kind, words) in choices.items():
        if isinstance(record, kind) and getattr(record, key) not in words:
            raise AskError(f"found {getattr(record, key)!r}; wanted one of: {', '.join(words)}")
    for key in ("count", "minutes"):
        value = getattr(record, key, 1.0)
        if not 0.0 <= value < float("inf") or (key == "count" and value == 0.0):
            raise AskError(f"found {key} {value:g}; wanted a number over 0")
    usable_day(record.day)
    usable_line(*(value for value in astuple(record) if isinstance(value, str)))
    if isinstance(record, Quoted):
        _refuse_pick(record.pick)
    if getattr(record, "people", 1) < 1:
        raise AskError("found nobody; wanted 1 or more people")


def _refuse_pick(text: str) -> None:
    """Refuse a pick that is no table of places and words."""
    try:
        pick = json.loads(text)
    except (ValueError, RecursionError):
        pick = None
    if not isinstance(pick, dict) or not all(isinstance(value, str) for value in pick.values()):
        raise AskError(f"found the pick {text[:40]!r}; wanted JSON of words by their place in the job file")
