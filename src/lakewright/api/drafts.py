"""Keep a draft: what is edited on the page is kept at once, step by step, and goes to the job file only when asked."""

from __future__ import annotations

import re
from collections.abc import Mapping
from itertools import count
from pathlib import Path

from lakewright.api.look import changed, draft_of
from lakewright.api.read import assembled
from lakewright.book.drafts import Book, Draft, Drafts
from lakewright.book.file import usual_book
from lakewright.errors import AskError
from lakewright.job.order import WAYS, moved
from lakewright.job.write import write_job

__all__ = ["STEPS", "WAYS", "Book", "Draft", "arrange", "begin", "begun", "draft", "edit"]
__all__ += ["restart", "step", "usual_book", "write_draft"]

STEPS = ("undo", "redo")

LONGEST_NAME = 40
"""ours: letters of the name of a new job file."""


def draft(book: Book, file: Path) -> Draft:
    """The draft of a job file, begun from the file where there is none.

    A draft that says what the file said follows the file, where that was changed meanwhile.

    Raises
    ------
    JobError where there is no draft, and the file is not there or is no text
    AskError where the book cannot be used
    """
    with book.draft_of(file) as kept:
        now = kept.now()
        if now is None or (not now.is_changed and file.exists() and draft_of(file) != now.base):
            kept.begin(draft_of(file))
        return _now(kept)


def begin(book: Book, folder: Path, name: str, text: str) -> Path:
    """Begin the draft of a new job file, which is written only when that is asked.

    Parameters
    ----------
    folder, name : where it would stand, and what it is to be called; another name where that one is taken
    text : a job file's

    Returns
    -------
    The file to be

    Raises
    ------
    JobError where the text is no job
    AskError where the book cannot be used
    """
    assembled(text)
    plain = re.sub("[^a-z0-9]+", "-", name.lower()).strip("-")[:LONGEST_NAME].strip("-") or "job"
    taken = {*begun(book, folder), *(file.stem for file in folder.glob("*.toml"))}
    free = next(each for n in count(1) if (each := plain if n == 1 else f"{plain}-{n}") not in taken)
    file = folder / f"{free}.toml"
    with book.draft_of(file) as kept:
        kept.begin(text, base="")
    return file


def begun(book: Book, folder: Path) -> list[str]:
    """Names of the job files of a folder that have a draft, the one that was worked on last first."""
    folder = folder.resolve()
    return [file.stem for file in book.files() if file.parent == folder and file.suffix == ".toml"]


def edit(
    book: Book, file: Path, changes: Mapping[str, str], standings: Mapping[str, str], date: str, goes_on: bool
) -> Draft:
    """The draft after some changes, as `look.changed` makes them; where they go on with the last, they are one step.

    Raises
    ------
    AskError for a path or a value that cannot be written, or a book that cannot be used
    """
    with book.draft_of(file) as kept:
        kept.put(changed(_now(kept).text, changes, standings, date), goes_on)
        return _now(kept)


def arrange(book: Book, file: Path, row: str, way: str) -> Draft:
    """The draft after one of its rows changed places with a neighbour, as `moved` does it.

    Raises
    ------
    AskError for a row that is not there or cannot be moved in place, or a book that cannot be used
    """
    with book.draft_of(file) as kept:
        kept.put(moved(_now(kept).text, row, way), False)
        return _now(kept)


def step(book: Book, file: Path, way: str) -> Draft:
    """The draft a step back or forth, as `STEPS` has it.

    Raises
    ------
    AskError for a book that cannot be used
    """
    with book.draft_of(file) as kept:
        if way in STEPS:
            (kept.undo if way == "undo" else kept.redo)()
        return _now(kept)


def restart(book: Book, file: Path) -> Draft:
    """The draft begun anew from the file; what it was is a step back.

    Raises
    ------
    JobError where the file is not there or is no text
    AskError where the book cannot be used
    """
    with book.draft_of(file) as kept:
        kept.begin(draft_of(file))
        return _now(kept)


def write_draft(book: Book, file: Path) -> Draft:
    """The draft, once it was written to its file.

    Raises
    ------
    AskError where the file has changed since the draft was begun, or cannot be written
    """
    with book.draft_of(file) as kept:
        now = _now(kept)
        if file.exists() and draft_of(file) != now.base:
            raise AskError(
                f"{file.name} has changed on the disk since this draft was begun, and is not written over; "
                "start again from the file, and undo brings this draft back"
            )
        try:
            write_job(file, now.text)
        except OSError as error:
            raise AskError(f"{file}: {error.strerror or error}; serve a copy in a folder you can write in") from None
        kept.written()
        return _now(kept)


def _now(kept: Drafts) -> Draft:
    """The draft that is there; every door begins one before it edits."""
    now = kept.now()
    if now is None:
        raise AskError(f"there is no draft of {kept.file}; open its page again")
    return now
