"""A book as a file: opened, taken to the version of this program, read and written in whole transactions.

Several programs on one machine may hold one book open: they write one after the other, and read what is whole.
"""

from __future__ import annotations

import os
import sqlite3
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from time import monotonic, sleep

from lakewright.book.schema import APPLICATION, STEPS, VERSION
from lakewright.errors import AskError

PATIENCE = 15.0
"""ours: so long others' writing is waited for [s]; eight busy writers make each wait a second or two."""

AGAIN = 0.02
"""ours: pause before a book that another program is just opening is tried again [s]."""

REMEDIES = (
    ("full", "make room on the disk and do it again; what was in the book before is still there"),
    ("disk i/o", "see whether the disk is full or gone and do it again; what was in the book before is still there"),
    ("locked", "another program is writing for too long: end it, or try again"),
    ("busy", "another program is writing for too long: end it, or try again"),
    ("malformed", "restore the last backup: lakewright book restore BACKUP"),
    ("not a database", "name another file with --book, or restore the last backup"),
    ("readonly", "name another with --book, in a folder you can write in"),
)
"""What sqlite or the system says, and what to do. The first that fits is taken."""

OTHERWISE = "name another with --book, in a folder you can write in"


class BookFile:
    """A book held open, to be read and written by several threads, one after the other.

    Parameters
    ----------
    path : where it is, or will be
    durable : whether what is acknowledged outlives a sudden end of the machine too, and not of the program alone

    Raises
    ------
    AskError where it cannot be opened or written, is of a later version, or is no book
    """

    def __init__(self, path: Path, durable: bool = True) -> None:
        self.path, self.lock = path, threading.Lock()
        with told(path):
            path.parent.mkdir(parents=True, exist_ok=True)
            self.connection = sqlite3.connect(path, timeout=PATIENCE, isolation_level=None, check_same_thread=False)
            try:
                _patiently(self._prepare, durable)
            except BaseException:
                self.connection.close()
                raise

    @contextmanager
    def writing(self) -> Iterator[sqlite3.Connection]:
        """The book to read and to write: all of it is kept when this ends, or none where it fails."""
        with self.lock, told(self.path), whole(self.connection, "begin immediate"):
            yield self.connection

    @contextmanager
    def reading(self) -> Iterator[sqlite3.Connection]:
        """The book to read as it is at one moment, whatever others write meanwhile."""
        with self.lock, told(self.path), whole(self.connection, "begin"):
            yield self.connection

    def close(self) -> None:
        """Close it."""
        with self.lock:
            self.connection.close()

    def _prepare(self, durable: bool) -> None:
        refuse_strange(self.connection, self.path)
        self.connection.execute("pragma journal_mode = wal")
        self.connection.execute(f"pragma synchronous = {'full' if durable else 'normal'}")
        self.connection.execute("pragma foreign_keys = on")
        if _version(self.connection) < VERSION:
            with whole(self.connection, "begin immediate"):
                _take_on(self.connection)


@contextmanager
def whole(connection: sqlite3.Connection, begin: str) -> Iterator[None]:
    """One transaction: all of it, or none where it fails."""
    connection.execute(begin)
    try:
        yield
        connection.execute("commit")
    except BaseException:
        # A full disk may have ended it already.
        if connection.in_transaction:
            connection.execute("rollback")
        raise


def refuse_strange(connection: sqlite3.Connection, path: Path) -> None:
    """Refuse another program's file, and the book of a later version of this one.

    Raises
    ------
    AskError with what to do
    """
    mark, version = connection.execute("pragma application_id").fetchone()[0], _version(connection)
    names = {name for (name,) in connection.execute("select name from sqlite_master where type = 'table'")}
    if mark != APPLICATION and (mark or version or not names <= {"steps", "drafts"}):
        raise AskError(f"{path} is another program's file, and no book; name another with --book")
    if version > VERSION:
        raise AskError(
            f"{path} is a book of version {version}, and this program knows versions up to {VERSION};"
            " use the newer program"
        )


@contextmanager
def told(path: Path) -> Iterator[None]:
    """Say what sqlite or the system says of a book in our words, with what to do."""
    try:
        yield
    except (OSError, sqlite3.Error) as error:
        said = str(error)
        remedy = next((words for start, words in REMEDIES if start in said.lower()), OTHERWISE)
        raise AskError(f"the book {path} cannot be used: {said}; {remedy}") from None


def usual_book() -> Path:
    """Where the book is when nobody says: among what the machine keeps for its user's programs."""
    home = Path.home()
    kept = os.environ.get("LOCALAPPDATA") if os.name == "nt" else os.environ.get("XDG_DATA_HOME")
    return Path(kept or home / ".local" / "share") / "lakewright" / "book.sqlite"


def _version(connection: sqlite3.Connection) -> int:
    return int(connection.execute("pragma user_version").fetchone()[0])


def _take_on(connection: sqlite3.Connection) -> None:
    # Another program may have done it while this one waited.
    for step in STEPS[_version(connection) :]:
        for statement in step:
            connection.execute(statement)
    connection.execute(f"pragma user_version = {VERSION}")
    connection.execute(f"pragma application_id = {APPLICATION}")


def _patiently(prepare: Callable[[bool], None], durable: bool) -> None:
    """Prepare a book that others may be preparing: not all of sqlite waits by itself for them."""
    until = monotonic() + PATIENCE
    while True:
        try:
            return prepare(durable)
        except sqlite3.OperationalError as error:
            if "locked" not in str(error) or monotonic() > until:
                raise
            sleep(AGAIN)
