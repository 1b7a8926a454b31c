"""The page's draft and the book: a revision opened as a draft, a draft kept as a revision, two edits put in one."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from pathlib import Path

from lakewright.api import book as shelf
from lakewright.api.book import FILES_NAMED, BookFile, Revision, Signed, file_name
from lakewright.api.drafts import Book, begin, draft
from lakewright.book import papers
from lakewright.book.beside import beside
from lakewright.book.changes import words_at
from lakewright.book.differs import Differs, differing
from lakewright.errors import AskError, LakewrightError, StaleError
from lakewright.job.write import set_values


@dataclass(frozen=True)
class Facing:
    """A draft that was refused as stale, and the revision that was kept meanwhile.

    base : the revision that the draft was made on; theirs : the last
    values : what differs, value by value; None where a text is no TOML
    lines : every place where theirs or the draft differs from the base, line by line
    """

    base: Revision
    theirs: Revision
    yours: str
    values: tuple[Differs, ...] | None
    lines: str


def origin_of(drafts: Book, file: Path) -> tuple[str, int] | None:
    """The job and the revision that the draft of a file was made on; None where it is of none in the book.

    Raises
    ------
    JobError where there is no draft, and the file is not there or is no text; AskError where the book cannot be used
    """
    draft(drafts, file)
    with drafts.draft_of(file) as kept:
        return kept.origin()


def book_name(drafts: Book, file: Path) -> str:
    """What the book would call the draft of a file: by its title, or else by its file."""
    (title,) = words_at(draft(drafts, file).text, "job.title")
    return title or file.stem


def open_revision(drafts: Book, folder: Path, kept: Revision) -> tuple[Path, list[str]]:
    """Begin a draft of its own with a revision of a job. Returns its file to be, and what was put beside it.

    Files that the revision names and the book keeps are put into the folder where nothing of their name is there.

    Raises
    ------
    JobError where the revision cannot be used as a job; AskError where the book or the folder cannot be used
    """
    file = begin(drafts, folder, kept.name, kept.text)
    put = []
    with drafts.file.reading() as rows:
        number = papers.number_of(rows, "job", kept.name)
        names = [
            named
            for named in words_at(kept.text, *FILES_NAMED)
            if named and Path(named).name == named and papers.number_of(rows, "file", file_name(number, named))
        ]
        texts = {named: papers.latest(rows, "file", file_name(number, named)).text for named in names}
    for named, text in texts.items():
        try:
            with (folder / named).open("xb") as stream:
                stream.write(text.encode("utf-8"))
            put.append(named)
        except FileExistsError:
            continue
        except (OSError, ValueError) as error:
            raise AskError(f"{folder / named}: {error}; make room there, or serve a job in another folder") from None
    return file, put


def keep_draft(
    book: BookFile, drafts: Book, file: Path, name: str, on: int, signed: Signed, note: str = ""
) -> Revision:
    """Keep the draft of a file as a job's next revision, made on revision `on`; as a new job where that is 0.

    Raises
    ------
    StaleError where another was kept after that one: nothing is written
    JobError, AskError as for `book.add` and `book.save`
    """
    text = draft(drafts, file).text
    if not on:
        return shelf.add(book, file, "job", name, signed, note, text=text)
    return shelf.save(book, file, "job", name, on, signed, note, text=text)


def facing(book: BookFile, drafts: Book, file: Path, name: str, on: int) -> Facing:
    """The draft of a file beside the last revision of a job, both against revision `on`, which it was made on.

    Raises
    ------
    AskError where there is no such job or revision
    """
    yours = draft(drafts, file).text
    with book.reading() as rows:
        base, theirs = papers.revision_of(rows, "job", name, on), papers.latest(rows, "job", name)
    values = differing(base.text, theirs.text, yours)
    lines = beside(base.text, theirs.text, yours)
    return Facing(base, theirs, yours, None if values is None else tuple(values), lines)


def put_in_one(book: BookFile, drafts: Book, file: Path, name: str, last: int, yours: Collection[str]) -> list[str]:
    """Make the draft what revision `last` says, with some of the draft's own values put into it; nothing is kept yet.

    Two steps of the draft: theirs, and yours put into theirs. Undo goes back to what the draft was.

    Parameters
    ----------
    yours : dotted paths of the values that are taken from the draft

    Returns
    -------
    Paths that could not be put in by themselves, and are as theirs

    Raises
    ------
    StaleError where `last` is not the last any more; AskError where there is no such job or a text is no TOML
    """
    with book.reading() as rows:
        theirs = papers.latest(rows, "job", name)
    if theirs.revision != last:
        raise StaleError(f"{name} has moved on once more: {theirs.words} is the last", theirs.revision)
    own = draft(drafts, file).text
    values = differing(theirs.text, theirs.text, own)
    if values is None:
        raise AskError("one of the two is no TOML: put them together by hand, in the job file")
    taken = [each for each in values if each.path in yours]
    text, left = _with(theirs.text, taken)
    with drafts.draft_of(file) as kept:
        kept.put(theirs.text, goes_on=False)
        kept.put(text, goes_on=False)
    return left


def _with(text: str, values: Sequence[Differs]) -> tuple[str, list[str]]:
    """A text with values set, those that go last and from behind, for a row that goes moves those after it."""
    left = []
    gone = [each for each in values if not each.yours]
    for each in (*(each for each in values if each.yours), *reversed(gone)):
        try:
            text = set_values(text, {each.path: each.yours})
        except LakewrightError:
            left.append(each.path)
    return text, left
