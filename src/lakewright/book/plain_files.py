"""The book as plain files, and back: papers as they were written, records as CSV. What goes out comes in to the letter.

book.toml          what this is, and its version
papers.csv         every paper: number, kind, name
revisions.csv      every revision: number, paper, revision, note, day, author
jobs/  waters/  customers/  files/
    0001-heron-point-cabin/0001.toml      the text of each revision, byte by byte
standings.csv  readings.csv  orders.csv  quotes.csv  visits.csv  invoices.csv  ways.csv
"""

from __future__ import annotations

import csv
import os
import re
import shutil
import sqlite3
import tempfile
import unicodedata
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import fields
from pathlib import Path

from lakewright.book import rows
from lakewright.book.papers import KINDS, Edit, refuse_unusable, usable_name
from lakewright.book.records import TABLES, columns_of, refuse_meaningless
from lakewright.book.schema import VERSION
from lakewright.errors import AskError
from lakewright.job.naming import folded

FOLDERS = {"job": "jobs", "water": "waters", "customer": "customers", "file": "files"}
PAPERS, REVISIONS = ("number", "kind", "name"), ("number", "paper", "revision", "note", "day", "author")
HEAD = f"# A book of jobs, waters and customers as plain files.\nversion = {VERSION}\n"
MOST_BYTES = 100_000_000
"""ours: of one file; a line of each revision of a thousand jobs over twenty years takes a tenth of that."""

LONGEST_SLUG = 40
"""ours: letters of a name that stand in a folder's, for who looks there; the number before them tells folders apart."""


def folder_of(number: int, kind: str, name: str) -> str:
    """Where the revisions of a paper lie: by its number, and what of its name any system can have in a path.

    >>> folder_of(7, "job", "Étang de l'Ouest: ../x")
    'jobs/0007-etang-de-l-ouest-x'
    """
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    slug = "-".join(re.findall(r"[a-z0-9]+", plain))[:LONGEST_SLUG].strip("-")
    return f"{FOLDERS[kind]}/{number:04d}{f'-{slug}' if slug else ''}"


def files_of(book: sqlite3.Connection) -> Iterator[tuple[str, bytes]]:
    """Every file of a book by its path, in one order, with what is in it."""
    yield "book.toml", HEAD.encode()
    papers = list(book.execute("select number, kind, name from papers order by number"))
    yield "papers.csv", rows.written(PAPERS, papers).encode()
    columns = ", ".join(REVISIONS)
    found = book.execute(f"select {columns} from revisions order by number")
    yield "revisions.csv", rows.written(REVISIONS, found).encode()
    folders = {number: folder_of(number, kind, name) for number, kind, name in papers}
    for paper, revision, text in book.execute("select paper, revision, text from revisions order by number"):
        yield _path(folders[paper], revision), text.encode()
    for kind, table in TABLES.items():
        heads = columns_of(kind)
        found = book.execute(f"select {', '.join(heads)} from {table} order by number")
        yield f"{table}.csv", rows.written(heads, found).encode()


def export(book: sqlite3.Connection, folder: Path) -> int:
    """Write a book as plain files into a new folder: all of them, or none. Returns how many.

    Raises
    ------
    AskError where the folder is there already, or cannot be written
    """
    if os.path.lexists(folder):
        raise AskError(f"{folder} is there already; name a new folder")
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        under_way = Path(tempfile.mkdtemp(prefix=f".{folder.name[:40]}.", suffix=".part", dir=folder.parent))
        try:
            count = 0
            for path, raw in files_of(book):
                (under_way / path).parent.mkdir(parents=True, exist_ok=True)
                (under_way / path).write_bytes(raw)
                count += 1
            under_way.chmod(0o755)
            under_way.rename(folder)
        except BaseException:
            shutil.rmtree(under_way, ignore_errors=True)
            raise
    except OSError as error:
        raise AskError(f"{folder}: {error.strerror or error}; name a folder where there is room to write") from None
    return count


def take_in(book: sqlite3.Connection, folder: Path) -> int:
    """Read plain files into a book that has nothing yet: all of them, or none. Returns how many papers.

    Raises
    ------
    AskError where the book has something already, or a file cannot be used
    """
    if any(book.execute(f"select 1 from {table} limit 1").fetchone() for table in ("papers", "ways")):
        raise AskError("the book has papers already; take the files into a new one: --book NEW.sqlite")
    reading = _Reading(folder)
    if reading.text("book.toml").strip() != HEAD.strip():
        raise AskError(f"{folder / 'book.toml'}: found another text; wanted that of an export of version {VERSION}")
    folders: dict[str, str] = {}
    for place, (number, kind, name) in reading.rows("papers.csv", PAPERS):
        if kind not in KINDS:
            raise AskError(f"{place}: found the kind {kind!r}; wanted one of: {', '.join(KINDS)}")
        folders[number] = folder_of(_whole(number, place), kind, name)
        with _at(place):
            usable_name(name)
        _insert(book, "papers", (*PAPERS, "folded"), (number, kind, name, folded(name)), place)
    for place, row in reading.rows("revisions.csv", REVISIONS):
        if row[1] not in folders:
            raise AskError(f"{place}: found the paper {row[1]!r}; wanted the number of one in papers.csv")
        text = reading.text(_path(folders[row[1]], _whole(row[2], place)))
        with _at(place):
            refuse_unusable(row[1], Edit(text, row[5], row[4], row[3]))
        _insert(book, "revisions", (*REVISIONS, "text"), (*row, text), place)
    for record, table in TABLES.items():
        for place, row in reading.rows(f"{table}.csv", columns_of(record)):
            _refuse(record, row, place)
            _insert(book, table, columns_of(record), row, place)
    return len(folders)


class _Reading:
    """Files under a folder: never one that a link leads out to."""

    def __init__(self, folder: Path) -> None:
        if not folder.is_dir():
            raise AskError(f"{folder} is no folder; name one that export has written")
        self.folder, self.home = folder, folder.resolve()

    def text(self, path: str) -> str:
        file = self.folder / path
        if not file.resolve().is_relative_to(self.home):
            raise AskError(f"{file} leads out of the folder; put the file itself there")
        try:
            with file.open("rb") as stream:
                raw = stream.read(MOST_BYTES + 1)
            if len(raw) > MOST_BYTES:
                raise AskError(f"{file}: more than {MOST_BYTES // 1_000_000} MB; export again, or put the file back")
            return raw.decode("utf-8")
        except OSError as error:
            raise AskError(f"{file}: {error.strerror or error}; export again, or put the file back") from None
        except UnicodeDecodeError as error:
            raise AskError(f"{file}: byte {error.start} is no UTF-8; write the file as UTF-8") from None

    def rows(self, path: str, heads: Sequence[str]) -> Iterator[tuple[str, list[str]]]:
        """The rows of a CSV, each with its place in words."""
        file = self.folder / path
        try:
            found = rows.read(self.text(path))
        except csv.Error as error:
            raise AskError(f"{file}: {error}; write it as CSV again") from None
        if not found or found[0][1] != list(heads):
            raise AskError(f"{file}, line 1: wanted the columns {', '.join(heads)}; put them in that order")
        for line, row in found[1:]:
            place = f"{file}, line {line}"
            if len(row) != len(heads):
                raise AskError(f"{place}: found {len(row)} cells; wanted {len(heads)}: {', '.join(heads)}")
            yield place, row


def _insert(book: sqlite3.Connection, table: str, columns: Sequence[str], row: Sequence[str], place: str) -> None:
    marks = ", ".join("?" * len(columns))
    try:
        book.execute(f"insert into {table} ({', '.join(columns)}) values ({marks})", tuple(row))
    except sqlite3.IntegrityError as error:
        raise AskError(f"{place}: {error}; put the row right, or take it out") from None


def _refuse(kind: type, row: Sequence[str], place: str) -> None:
    """Refuse a record that says what has no meaning."""
    taken = {"int": int, "float": float, "str": str}
    try:
        values = {column.name: taken[str(column.type)](cell) for column, cell in zip(fields(kind), row, strict=True)}
    except ValueError as error:
        raise AskError(f"{place}: {error}; write the figure alone") from None
    with _at(place):
        refuse_meaningless(kind(**values))


@contextmanager
def _at(place: str) -> Iterator[None]:
    """Say where in the files something is wrong."""
    try:
        yield
    except AskError as error:
        raise AskError(f"{place}: {error}") from None


def _whole(text: str, place: str) -> int:
    if not (text.isascii() and text.isdigit() and len(text) < 10):
        raise AskError(f"{place}: found {text!r}; wanted a whole number")
    return int(text)


def _path(folder: str, revision: int) -> str:
    return f"{folder}/{revision:04d}.toml"
