"""Drafts: job files under way, step by step, apart from the files themselves. What was once written here is not lost.

Steps are only added, each after another, so that an undone step stays where `redo` finds it. Two programs, or two
tabs, write one after the other: each reads what is there, and adds to that, in one transaction.
"""

from __future__ import annotations

import os
import sqlite3
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from lakewright.errors import AskError

PATIENCE = 5.0
"""ours: so long another program's writing is waited for [s]."""

TABLES = """
create table if not exists steps (
  number integer primary key,
  file text not null,
  after integer references steps (number),
  text text not null
) strict;
create table if not exists drafts (
  file text primary key,
  base text not null,
  at integer not null references steps (number)
) strict;
create index if not exists steps_after on steps (after);
"""
"""One row a step, and one a file: the text the draft was begun from, and the step it is at."""


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


def usual_book() -> Path:
    """Where the book is when nobody says: among what the machine keeps for its user's programs."""
    home = Path.home()
    kept = os.environ.get("LOCALAPPDATA") if os.name == "nt" else os.environ.get("XDG_DATA_HOME")
    return Path(kept or home / ".local" / "share") / "lakewright" / "book.sqlite"


class Book:
    """A book held open, to be read and written by several threads, one after the other.

    Raises
    ------
    AskError where it cannot be opened or written
    """

    def __init__(self, path: Path) -> None:
        self.path, self.lock = path, threading.Lock()
        with self._told():
            path.parent.mkdir(parents=True, exist_ok=True)
            self.opened = sqlite3.connect(path, timeout=PATIENCE, isolation_level=None, check_same_thread=False)
            self.opened.execute("pragma journal_mode = wal")
            # A sudden end of the program loses nothing; one of the machine may lose the last moments.
            self.opened.execute("pragma synchronous = normal")
            self.opened.executescript(TABLES)

    @contextmanager
    def draft_of(self, file: Path) -> Iterator[Drafts]:
        """The draft of a file, to read and to write: all of it is kept when this ends, or none where it fails."""
        with self.lock, self._told():
            self.opened.execute("begin immediate")
            try:
                yield Drafts(self.opened, str(file.resolve()))
            except BaseException:
                self.opened.execute("rollback")
                raise
            self.opened.execute("commit")

    def files(self) -> list[Path]:
        """The files that have a draft, the one that was worked on last first."""
        with self.lock, self._told():
            return [Path(row[0]) for row in self.opened.execute("select file from drafts order by at desc")]

    def close(self) -> None:
        """Close it."""
        with self.lock:
            self.opened.close()

    @contextmanager
    def _told(self) -> Iterator[None]:
        try:
            yield
        except (OSError, sqlite3.Error) as error:
            raise AskError(
                f"the book {self.path} cannot be used: {error}; name another with --book, in a folder you can write in"
            ) from None
