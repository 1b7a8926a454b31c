"""The commands under `book` for rounds of visits, and for copies of the book."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from lakewright.api.book import BookFile, Signed

Lines = Iterable[str]
Run = Callable[[argparse.Namespace, "BookFile", "Signed"], Lines]
Adder = Callable[[str, Run, str], argparse.ArgumentParser]
"""Adds a command by its name, what runs it, and its words."""


def add_rounds(command: Adder) -> None:
    """Add ways, rounds, visits and invoices."""
    way = command("way", _way, "put down the minutes on the road between two waters, or from the shop")
    way.add_argument("start", metavar="FROM")
    way.add_argument("finish", metavar="TO")
    way.add_argument("minutes", metavar="MINUTES", type=float)
    work = {"metavar": "WORK", "choices": ("haul-out", "start-up"), "help": "haul-out or start-up"}
    turn = command("round", _round, "the service round: stops in order, minutes, and what the truck takes")
    turn.add_argument("work", **work)  # type: ignore[arg-type]
    turn.add_argument("--calendar", metavar="FILE", type=Path, help="write its stops as a calendar file (ICS) too")
    done = command("done", _done, "put down a visit that was made; a job then stands wintered, or put in")
    done.add_argument("name", metavar="NAME")
    done.add_argument("work", metavar="WORK", choices=("haul-out", "start-up", "repair"))
    done.add_argument("minutes", metavar="MINUTES", type=float, help="on the site, of everyone there")
    done.add_argument("--people", metavar="N", type=int, default=1, help="how many were there; 1 if not said")
    done.add_argument("--parts", default="", help="what was used")
    done.add_argument("--note", default="")
    invoices = command("invoices", _invoices, "visits that no invoice went out for, with their labour")
    invoices.add_argument("--sent", metavar="NAME", help="put down that all of a job went out")


def _way(asked: argparse.Namespace, book: BookFile, signed: Signed) -> Lines:
    from lakewright.api.book import Way, put_down

    put_down(book, Way(start=asked.start, finish=asked.finish, minutes=asked.minutes, **vars(signed)))
    yield f"{asked.start} to {asked.finish}: {asked.minutes:g} min"


def _round(asked: argparse.Namespace, book: BookFile, signed: Signed) -> Lines:
    from datetime import date

    from lakewright.api.book_round import round_of, write_calendar
    from lakewright.book_lines import round_lines

    day = date.fromisoformat(signed.day)
    found = round_of(book, asked.work, day)
    if asked.calendar is not None:
        write_calendar(found, asked.calendar, day)
    return round_lines(found)


def _done(asked: argparse.Namespace, book: BookFile, signed: Signed) -> Lines:
    from lakewright.api.book import WORKS, Visit
    from lakewright.api.book_round import done

    told = {"minutes": asked.minutes, "people": asked.people, "parts": asked.parts, "note": asked.note}
    done(book, Visit(job=asked.name, work=asked.work, **told, **vars(signed)))
    stands = f"; it stands {WORKS[asked.work]}" if WORKS[asked.work] else ""
    yield f"{asked.name}: {asked.work}, {signed.day}{stands}"


def _invoices(asked: argparse.Namespace, book: BookFile, signed: Signed) -> Lines:
    from lakewright.api.book_round import invoiced, ready
    from lakewright.book_lines import ready_lines

    if asked.sent is not None:
        count = invoiced(book, asked.sent, signed)
        yield f"{asked.sent}: {count} {'visit' if count == 1 else 'visits'} invoiced on {signed.day}"
        return
    yield from ready_lines(ready(book))


# Copies.


def add_copies(command: Adder) -> None:
    """Add export, import, backup and restore."""
    out = command("export", _export, "write the whole book as plain files, TOML and CSV, into a new folder")
    out.add_argument("folder", metavar="FOLDER", type=Path)
    take = command("import", _import, "read what export wrote into a book that has nothing yet")
    take.add_argument("folder", metavar="FOLDER", type=Path)
    copy = command("backup", _backup, "copy the book into a new file, while others go on working")
    copy.add_argument("file", metavar="FILE", type=Path)
    back = command("restore", _restore, "bring the book back from a backup; what it was goes aside, and is kept")
    back.add_argument("file", metavar="FILE", type=Path)


def _export(asked: argparse.Namespace, book: BookFile, _: Signed) -> Lines:
    from lakewright.api.book_copies import export_to

    yield f"{export_to(book, asked.folder)} files in {asked.folder}"


def _import(asked: argparse.Namespace, book: BookFile, _: Signed) -> Lines:
    from lakewright.api.book_copies import import_from

    yield f"{import_from(book, asked.folder)} papers taken in from {asked.folder}"


def _backup(asked: argparse.Namespace, book: BookFile, _: Signed) -> Lines:
    from lakewright.api.book_copies import back_up_to

    back_up_to(book, asked.file)
    yield f"{book.path} is copied to {asked.file}, and the copy is sound"


def _restore(asked: argparse.Namespace, book: BookFile, _: Signed) -> Lines:
    from lakewright.api.book_copies import bring_back

    aside = bring_back(book, asked.file)
    yield f"{book.path} is what {asked.file} was; what it was before is {aside}"
