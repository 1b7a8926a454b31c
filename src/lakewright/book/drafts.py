"""Drafts: job files under way, step by step, apart from the files themselves. What was once written here is not lost.

Steps are only added, each after another, so that an undone step stays where `redo` finds it. Two programs, or two
tabs, write one after the other: each reads what is there, and adds to that, in one transaction.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from lakewright.book.file import BookFile


@dataclass(frozen=True)
class Draft:
    """A draft as it stands.

    number : of the step it is at; base : the text of the file that it was begun from, or written to last
    """

    text: str
    number: int
    base: str
    has_before: bool
    has_after: bool

    @property
    def is_changed(self) -> bool:
        """Whether it says anything else than the file did."""
        return self.text != self.base


class Drafts:
    """The draft of one file, in one transaction with the book."""

    def __init__(self, book: sqlite3.Connection, file: str) -> None:
        self.book, self.file = book, file

    def now(self) -> Draft | None:
        """The draft of the file; None before the first."""
        row = self.book.execute(
            "select number, text, base, after from drafts join steps on number = at where drafts.file = ?", (self.file,)
        ).fetchone()
        if row is None:
            return None
        number, text, base, after = row
        return Draft(text, number, base, after is not None, self._last_after(number) is not None)

    def begin(self, text: str, base: str | None = None) -> None:
        """Go on from the text of the file, whatever the draft was; what it was is a step back.

        `base` is what the file says where that is something else, as of one that is not there yet.
        """
        before = self.now()
        at = self._add(text, before.number if before is not None and before.text != text else None)
        self.book.execute(
            "insert into drafts values (?, ?, ?)"
            " on conflict (file) do update set base = excluded.base, at = excluded.at",
            (self.file, text if base is None else base, at),
        )

    def put(self, text: str, goes_on: bool) -> None:
        """A further step, or where it goes on with the last one, another in its place."""
        number, after, before = self.book.execute(
            "select number, after, text from drafts join steps on number = at where drafts.file = ?", (self.file,)
        ).fetchone()
        if text != before:
            self._go_to(self._add(text, after if goes_on and after is not None else number))

    def undo(self) -> None:
        """A step back, if there is one."""
        self._go_to("(select after from steps where number = at)")

    def redo(self) -> None:
        """The last step that was added after this one, if there is one."""
        self._go_to("(select max(number) from steps where after = at)")

    def written(self) -> None:
        """The file now says what the draft does."""
        self.book.execute(
            "update drafts set base = (select text from steps where number = at) where file = ?", (self.file,)
        )

    def origin(self) -> tuple[str, int] | None:
        """The job of the book and its revision that the draft was opened as, saved as or made of last.

        It is the nearest of the draft's own steps back that says what a revision says, to the letter; None where none
        does. Undone steps do not count: who goes back behind a revision is on the one before.
        """
        row: tuple[str, int] | None = self.book.execute(
            "with recursive chain (text, after, back) as ("
            " select text, after, 0 from drafts join steps on number = at where drafts.file = ?"
            " union all"
            " select steps.text, steps.after, back + 1 from chain join steps on steps.number = chain.after)"
            " select papers.name, revision from chain join revisions on revisions.text = chain.text"
            " join papers on papers.number = paper where kind = 'job' order by back, revisions.number desc limit 1",
            (self.file,),
        ).fetchone()
        return row

    def _go_to(self, step: int | str) -> None:
        # A step is a number, or one of the two questions above: no text of a user is put here.
        self.book.execute(f"update drafts set at = coalesce({step}, at) where file = ?", (self.file,))

    def _add(self, text: str, after: int | None) -> int:
        row = self.book.execute(
            "insert into steps (file, after, text) values (?, ?, ?) returning number", (self.file, after, text)
        )
        return int(row.fetchone()[0])

    def _last_after(self, number: int) -> int | None:
        found: int | None = self.book.execute("select max(number) from steps where after = ?", (number,)).fetchone()[0]
        return found


class Book:
    """The drafts of a book held open, to be read and written by several threads, one after the other.

    Raises
    ------
    AskError where it cannot be opened or written
    """

    def __init__(self, path: Path) -> None:
        # A sudden end of the program loses nothing; one of the machine may lose the last moments of a draft.
        self.path, self.file = path, BookFile(path, durable=False)

    @contextmanager
    def draft_of(self, file: Path) -> Iterator[Drafts]:
        """The draft of a file, to read and to write: all of it is kept when this ends, or none where it fails."""
        with self.file.writing() as connection:
            yield Drafts(connection, str(file.resolve()))

    def files(self) -> list[Path]:
        """The files that have a draft, the one that was worked on last first."""
        with self.file.reading() as connection:
            return [Path(row[0]) for row in connection.execute("select file from drafts order by at desc")]

    def close(self) -> None:
        """Close it."""
        self.file.close()
