"""Papers and their revisions: jobs, waters, customers, and files that jobs name. A revision is added, never changed.

An edit says on which revision it was made. Where another was kept meanwhile it is refused, and shown beside that one.
"""

from __future__ import annotations

import contextlib
import datetime
import sqlite3
from dataclasses import dataclass

from lakewright.book.beside import beside
from lakewright.errors import AskError, StaleError
from lakewright.job.naming import folded

KINDS = ("job", "water", "customer", "file")

LONGEST_NAME = 120
"""ours: letters; a name is a line."""

LONGEST_NOTE = 10_000
"""ours: letters; what is longer is no note."""

COLUMNS = "name, revision, text, revisions.note, day, author, revisions.number"


@dataclass(frozen=True)
class Revision:
    """One revision of a paper, whole.

    revision : which of the paper's, from 1; number : which of the book's
    """

    name: str
    revision: int
    text: str
    note: str
    day: str
    author: str
    number: int

    @property
    def words(self) -> str:
        """Which it is, who made it and when."""
        return f"revision {self.revision}, by {self.author}, {self.day}"


@dataclass(frozen=True)
class Edit:
    """What somebody wants kept: the whole text, who says so, and on which day."""

    text: str
    author: str
    day: str
    note: str = ""


def add(book: sqlite3.Connection, kind: str, name: str, edit: Edit) -> Revision:
    """Keep a new paper: its first revision.

    Raises
    ------
    AskError where the name cannot be used, or is in the book
    """
    name = usable_name(name)
    if number_of(book, kind, name):
        raise AskError(f"{name} is in the book already; save it as a revision, or give another name with --as")
    row = (kind, name, folded(name))
    book.execute("insert into papers (kind, name, folded) values (?, ?, ?)", row)
    return _kept(book, kind, name, 1, edit)


def save(book: sqlite3.Connection, kind: str, name: str, on: int, edit: Edit) -> Revision:
    """Keep a further revision of a paper, made on revision `on`. What says the same as the last one is that one.

    Raises
    ------
    StaleError where another was kept after that revision; nothing is written
    AskError where there is no such paper or revision
    """
    last = latest(book, kind, name)
    if edit.text == last.text:
        return last
    if on != last.revision:
        base = revision_of(book, kind, name, on)
        raise StaleError(
            f"{last.name} has moved on since revision {on}, and this edit is not kept: {last.words} is the last."
            f" Put yours into that one, and save it on {last.revision}.\n{beside(base.text, last.text, edit.text)}",
            last.revision,
        )
    return _kept(book, kind, last.name, on + 1, edit)


def latest(book: sqlite3.Connection, kind: str, name: str) -> Revision:
    """The last revision of a paper.

    Raises
    ------
    AskError where there is none
    """
    return revisions(book, kind, name, 1)[0]


def revision_of(book: sqlite3.Connection, kind: str, name: str, revision: int) -> Revision:
    """One revision of a paper.

    Raises
    ------
    AskError where there is none
    """
    row = book.execute(
        f"select {COLUMNS} from revisions join papers on papers.number = paper where paper = ? and revision = ?",
        (must_number(book, kind, name), revision),
    ).fetchone()
    if row is None:
        last = latest(book, kind, name).revision
        raise AskError(f"{name} has no revision {revision}; it has 1 to {last}")
    return Revision(*row)


def revisions(book: sqlite3.Connection, kind: str, name: str, most: int = -1) -> list[Revision]:
    """The revisions of a paper, the last first, and no more than `most` of them where that is not below 0.

    Raises
    ------
    AskError where there is no such paper
    """
    rows = book.execute(
        f"select {COLUMNS} from revisions join papers on papers.number = paper"
        " where paper = ? order by revision desc limit ?",
        (must_number(book, kind, name), most),
    )
    return [Revision(*row) for row in rows]


def names(book: sqlite3.Connection, kind: str) -> list[str]:
    """The names of a kind, in the order they were kept."""
    return [name for (name,) in book.execute("select name from papers where kind = ? order by number", (kind,))]


def number_of(book: sqlite3.Connection, kind: str, name: str) -> int:
    """The number of a paper in the book; 0 where there is none."""
    if not name.isprintable():
        return 0  # no name is kept that is not, and what no letter stands for cannot be asked after
    row = book.execute("select number from papers where kind = ? and folded = ?", (kind, folded(name))).fetchone()
    return 0 if row is None else int(row[0])


def refuse_unusable(name: str, edit: Edit) -> None:
    """Refuse a revision whose text is none, or that is not signed.

    Raises
    ------
    AskError with what was wanted
    """
    if "\0" in edit.text:
        raise AskError(f"{name}: found a zero byte; wanted text; take it out")
    usable_day(edit.day)
    usable_line(edit.author, edit.note)


def usable_day(day: str) -> str:
    """A day as it is kept, as 2026-08-14.

    Raises
    ------
    AskError where it is in no calendar
    """
    with contextlib.suppress(ValueError):
        if datetime.date.fromisoformat(day).isoformat() == day:
            return day
    raise AskError(f"found the day {day[:40]!r}; wanted one as 2026-08-14")


def usable_line(*words: str) -> None:
    """Refuse words that are too long for a note or a name, or hold what no letter stands for.

    Raises
    ------
    AskError where one does
    """
    with contextlib.suppress(UnicodeEncodeError):
        "".join(words).encode()
        if "\0" not in "".join(words):
            return _refuse_long(words)
    raise AskError("found what no letter stands for; wanted words; write them anew")


def _refuse_long(words: tuple[str, ...]) -> None:
    if any(len(each) > LONGEST_NOTE for each in words):
        raise AskError(f"found more than {LONGEST_NOTE:,} letters; wanted a note; keep the rest in a file")


def must_number(book: sqlite3.Connection, kind: str, name: str) -> int:
    """The number of a paper in the book.

    Raises
    ------
    AskError where there is none
    """
    number = number_of(book, kind, name)
    if not number:
        from difflib import get_close_matches

        known = {folded(each): each for each in names(book, kind)}
        near = get_close_matches(folded(name), known, n=1)
        guess = f"did you mean {known[near[0]]}?" if near else f"lakewright book list --kind {kind} has all"
        raise AskError(f"the book has no {kind} {name!r}; {guess}")
    return number


def usable_name(name: str) -> str:
    """A name as it is kept.

    Raises
    ------
    AskError where it is no line of letters
    """
    said = name.strip()
    if not folded(said) or not said.isprintable() or len(said) > LONGEST_NAME:
        wanted = f"1 to {LONGEST_NAME} letters on one line"
        raise AskError(f"found the name {said[:60]!r}; wanted {wanted}; give it with --as")
    return said


def _kept(book: sqlite3.Connection, kind: str, name: str, revision: int, edit: Edit) -> Revision:
    refuse_unusable(name, edit)
    paper = number_of(book, kind, name)
    row = (paper, revision, edit.text, edit.note, edit.day, edit.author)
    columns = "paper, revision, text, note, day, author"
    done = book.execute(f"insert into revisions ({columns}) values (?, ?, ?, ?, ?, ?) returning number", row)
    return Revision(name, revision, edit.text, edit.note, edit.day, edit.author, int(done.fetchone()[0]))
