"""A copy of the book taken while it is in use, and a book brought back from one."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from lakewright.book.file import PATIENCE, BookFile, refuse_strange, told
from lakewright.book.schema import APPLICATION
from lakewright.errors import AskError
from lakewright.job.disk import in_place_of


def back_up(book: BookFile, to: Path) -> None:
    """Copy a book as it is at one moment into a new file, looked over before it gets its name.

    Raises
    ------
    AskError where the file is there already, cannot be written, or the copy is not sound
    """
    if os.path.lexists(to):
        raise AskError(f"{to} is there already; name a new file")
    with told(to):
        to.parent.mkdir(parents=True, exist_ok=True)
        with (
            in_place_of([to]) as parts,
            _alone(parts[to]) as made,
            book.lock,
            closing(sqlite3.connect(made, isolation_level=None)) as copy,
        ):
            book.connection.backup(copy)
            # One file that can be carried, and not three.
            copy.execute("pragma journal_mode = delete")
            look_over(copy, to)


def restore(book: BookFile, source: Path, aside: Path) -> None:
    """Bring a book back from a copy, once the copy has been looked over; what the book was goes aside first.

    Parameters
    ----------
    aside : a new file, for the book as it was

    Raises
    ------
    AskError where the copy is none, or not sound; the book is then as it was
    """
    with _copy(source) as copy:
        back_up(book, aside)
        with told(book.path), book.lock:
            copy.backup(book.connection)
            book.connection.execute("pragma journal_mode = wal")
    # A copy of an earlier version is taken on as any book is.
    BookFile(book.path).close()


def look_over(connection: sqlite3.Connection, path: Path) -> None:
    """Refuse a book that is not sound.

    Raises
    ------
    AskError with what is wrong
    """
    refuse_strange(connection, path)
    found = [words for (words,) in connection.execute("pragma integrity_check(3)") if words != "ok"]
    found += [f"a row of {row[0]} stands on nothing" for row in connection.execute("pragma foreign_key_check")][:3]
    if found:
        raise AskError(f"{path} is not sound: {'; '.join(found)}; use another copy")


@contextmanager
def _alone(path: Path) -> Iterator[Path]:
    """A file of a database, without those that SQLite leaves beside it when something fails."""
    try:
        yield path
    finally:
        for end in ("-wal", "-shm", "-journal"):
            path.with_name(f"{path.name}{end}").unlink(missing_ok=True)


@contextmanager
def _copy(source: Path) -> Iterator[sqlite3.Connection]:
    if not source.is_file():
        raise AskError(f"{source} is no file; name a backup of a book")
    with told(source), closing(sqlite3.connect(f"{source.resolve().as_uri()}?mode=ro", uri=True)) as copy:
        if copy.execute("pragma application_id").fetchone()[0] != APPLICATION:
            raise AskError(f"{source} is no backup of a book; name one")
        copy.execute(f"pragma busy_timeout = {int(1000 * PATIENCE)}")
        look_over(copy, source)
        yield copy
