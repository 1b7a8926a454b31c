"""The book on the page: what is asked of it, and what is done with it, each by one post or one file taken away."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from contextlib import closing
from dataclasses import dataclass
from typing import Any

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from lakewright.api import book as shelf
from lakewright.api import book_copies, book_drafts, book_round
from lakewright.api.book import BookFile, Found, Signed, Standing
from lakewright.api.book_checks import requote
from lakewright.errors import AskError, JobError, LakewrightError, StaleError
from lakewright.web.book_views import VIEWS, draft_box, facing_view, prices_rows, shell
from lakewright.web.jobs import JobAt, Jobs
from lakewright.web.papers import packed
from lakewright.web.posts import (
    LARGEST_POST,
    LARGEST_SHEET,
    Refused,
    content_of,
    day_of,
    number_of,
    posted,
    text_of,
    texts_of,
    today,
)
from lakewright.web.records import sheet_of
from lakewright.web.view import render

LARGEST_IMPORT = 30_000_000
"""ours: a book of a thousand jobs, packed and written as text inside the post; more is refused unread [bytes]."""

LARGEST = {"import": LARGEST_IMPORT, "price": LARGEST_SHEET}
"""What may be posted with something to be taken in, by the end of the address [bytes]."""


@dataclass
class Done:
    """What came of something that was asked for.

    view, given : what is shown then, or html in its place
    said : what is to be known; address : where to go on; redraw : whether the draft is another now
    """

    view: str
    given: Mapping[str, Any]
    said: str = ""
    address: str = ""
    html: str = ""
    redraw: bool = False


class Shelf:
    """The book behind the page. Each question opens it anew, so that what is acknowledged is on the disk."""

    def __init__(self, jobs: Jobs) -> None:
        self.jobs = jobs

    def opened(self) -> closing[BookFile]:
        """The book, to be closed."""
        return closing(BookFile(self.jobs.book.path))

    async def ask(self, request: Request) -> Response:
        """A view of the book, after what is asked was done."""
        given = await posted(request, LARGEST.get(request.path_params.get("what", ""), LARGEST_POST))
        job = self.jobs.named(text_of(given, "job"))
        return JSONResponse(await run_in_threadpool(self.answer, job, given))

    def answer(self, job: JobAt, given: Mapping[str, Any]) -> dict[str, Any]:
        """The same, for the answer: what cannot be done is told in `trouble`, with the view that was asked for."""
        trouble, done = "", Done(text_of(given, "see") or "jobs", given)
        with self.opened() as book:
            try:
                if act := ACTS.get(text_of(given, "do")):
                    done = act(self, book, job, given)
            except StaleError:
                name, on = text_of(given, "name"), number_of(given, "on")
                done.html = facing_view(book_drafts.facing(book, self.jobs.book, job.file, name, on))
            except Refused:
                raise
            except LakewrightError as error:
                trouble = in_words(error)
            try:
                html = done.html or VIEWS[done.view if done.view in VIEWS else "jobs"](book, done.given)
            except Refused:
                raise
            except LakewrightError as error:
                html, trouble = done.html, trouble or in_words(error)
            return {
                "html": html,
                "said": done.said,
                "trouble": trouble,
                "address": done.address,
                "redraw": done.redraw,
                "draft": draft_box(book_drafts.origin_of(self.jobs.book, job.file), self.jobs.book, job.file, book),
            }

    def leaf(self, job: JobAt) -> str:
        """The leaf as it is unfolded: who one is, the draft, and the jobs."""
        try:
            return shell(self.answer(job, {}))
        except LakewrightError as error:
            return in_words(error)

    async def take(self, request: Request) -> Response:
        """A file of the book to be taken away: everything as plain files, a copy of it, or a round's calendar."""
        name, asked = request.path_params["name"], request.query_params
        content, kind = await run_in_threadpool(self.file, name, dict(asked))
        return Response(content, media_type=kind, headers={"content-disposition": f'attachment; filename="{name}"'})

    def file(self, name: str, asked: Mapping[str, str]) -> tuple[bytes, str]:
        """Content and kind of such a file.

        Raises
        ------
        AskError where there is none of that name, or it cannot be made
        """
        with self.opened() as book:
            if name == "book.zip":
                return packed(book_copies.plain_files(book)), "application/zip"
            if name == "book.sqlite":
                return book_copies.copied(book), "application/vnd.sqlite3"
            if name == "round.ics":
                first = day_of(asked.get("first", ""))
                found = book_round.round_of(book, asked.get("work", ""), first)
                return book_round.calendar_of(found, first).encode("utf-8"), "text/calendar"
        raise AskError(f"found {name!r}; wanted one of book.zip, book.sqlite, round.ics")


# What can be done, by its name in a post.


def _mark(_: Shelf, book: BookFile, _job: JobAt, given: Mapping[str, Any]) -> Done:
    name, stage = text_of(given, "name"), text_of(given, "stage")
    signed = signed_of(given)
    note = text_of(given, "note")
    shelf.put_down(book, Standing(job=name, stage=stage, note=note, day=signed.day, author=signed.author))
    return Done("job", {"name": name}, f"{name}: {stage}, {signed.day}.")


def _found(_: Shelf, book: BookFile, _job: JobAt, given: Mapping[str, Any]) -> Done:
    name, signed = text_of(given, "name"), signed_of(given)
    what, said, found, note = (text_of(given, key) for key in ("what", "said", "found", "note"))
    reading = Found(job=name, what=what, said=said, found=found, note=note, day=signed.day, author=signed.author)
    shelf.put_down(book, reading)
    return Done("job", {"name": name}, f"{name}: {what}, said {said}, found {found}, is put down.")


def _open(page: Shelf, book: BookFile, _job: JobAt, given: Mapping[str, Any]) -> Done:
    kept = shelf.revision_text(book, "job", text_of(given, "name"), number_of(given, "revision"))
    file, _ = book_drafts.open_revision(page.jobs.book, page.jobs.folder, kept)
    return Done("job", {"name": kept.name}, address=page.jobs.named(file.stem).address)


def _keep(page: Shelf, book: BookFile, job: JobAt, given: Mapping[str, Any]) -> Done:
    name, on, signed = text_of(given, "name"), number_of(given, "on"), signed_of(given)
    before = shelf.revision_text(book, "job", name).revision if on else 0
    kept = book_drafts.keep_draft(book, page.jobs.book, job.file, name, on, signed, text_of(given, "note"))
    said = f"{kept.name}: {kept.words}, is kept."
    if kept.revision == before:
        said = f"{kept.name} says that already: {kept.words}. Nothing new is kept."
    return Done("job", {"name": kept.name}, said)


def _put_in_one(page: Shelf, book: BookFile, job: JobAt, given: Mapping[str, Any]) -> Done:
    name, last = text_of(given, "name"), number_of(given, "last")
    yours = [path for path, whose in texts_of(given, "whose").items() if whose == "yours"]
    left = book_drafts.put_in_one(book, page.jobs.book, job.file, name, last, yours)
    said = f"The draft is now revision {last} of {name} with {len(yours) - len(left)} of your values put in."
    if left:
        said += f" Could not be put in by themselves, and are as theirs: {', '.join(left)}."
    said += " Look at it, and keep it. Undo brings back what it was."
    return Done("job", {"name": name}, said, redraw=True)


def _price(_: Shelf, book: BookFile, _job: JobAt, given: Mapping[str, Any]) -> Done:
    with sheet_of(given, "sheet") as own:
        found = requote(book, own, signed_of(given), given.get("put") is True, only=text_of(given, "name"))
    return Done("prices", {}, html=prices_rows(found))


def _import(_: Shelf, book: BookFile, _job: JobAt, given: Mapping[str, Any]) -> Done:
    count = book_copies.import_packed(book, content_of(given))
    return Done("jobs", {}, f"{count} papers are taken in.")


Act = Callable[[Shelf, BookFile, JobAt, Mapping[str, Any]], Done]
ACTS: Mapping[str, Act] = {
    "mark": _mark,
    "found": _found,
    "open": _open,
    "keep": _keep,
    "put in one": _put_in_one,
    "price": _price,
    "import": _import,
}


# What was posted.


def signed_of(given: Mapping[str, Any]) -> Signed:
    """Who says so, today.

    Raises
    ------
    AskError where nobody does
    """
    who = text_of(given, "who").strip()
    if not who:
        raise AskError("nobody has said who puts this down; write your name under Who you are, and do it again")
    return Signed(who, today())


def in_words(error: LakewrightError) -> str:
    """What is wrong, as a piece of HTML."""
    if isinstance(error, JobError):
        return render("mistakes.html", mistakes=error.mistakes, head="That cannot be done with this job.")
    return render("trouble.html", words=str(error))
