"""The page's server: the draft of one job file, kept in a book; the file is written only when that is asked."""

from __future__ import annotations

import asyncio
import datetime
import json
import math
import threading
from collections.abc import AsyncGenerator
from dataclasses import dataclass
from importlib import resources
from pathlib import Path
from typing import TYPE_CHECKING, Any

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import JSONResponse, PlainTextResponse, Response, StreamingResponse
from starlette.routing import Route

from lakewright.api.drafts import STEPS, draft, restart, write_draft
from lakewright.api.drafts import edit as changed
from lakewright.api.drafts import step as stepped
from lakewright.errors import LakewrightError
from lakewright.web.choices import choices
from lakewright.web.guard import Guard
from lakewright.web.look import style
from lakewright.web.view import Asked, pieces, render

if TYPE_CHECKING:
    from lakewright.api.drafts import Book

LARGEST_POST = 200_000
"""ours: an edit is some hundreds of bytes; more is refused unread [bytes]."""

FILES = {
    "page.js": ("lakewright.web", "static/page.js", "text/javascript"),
    "regular.ttf": ("lakewright.documents", "fonts/CharisSIL-Regular.ttf", "font/ttf"),
    "bold.ttf": ("lakewright.documents", "fonts/CharisSIL-Bold.ttf", "font/ttf"),
}


class Stopped(Exception):
    """Nobody waits for this search any more."""


@dataclass(frozen=True)
class Edit:
    """What the page asks to be done to the draft.

    changes : values by their paths; standings : on whose word, where it is said; date : today
    step : back, forth, anew from the file, or to the file; goes_on : whether the changes go on with the last ones
    """

    changes: dict[str, str]
    standings: dict[str, str]
    date: str
    step: str
    goes_on: bool


class Page:
    """The page of one job file.

    Parameters
    ----------
    file : where it stands; waters are looked for beside it
    book : where its draft is kept
    may_write : whether the draft may be written to the file, where that is asked
    """

    def __init__(self, file: Path, book: Book, may_write: bool) -> None:
        self.file, self.book, self.may_write = file, book, may_write
        self.searching = asyncio.Lock()

    async def page(self, _: Request) -> Response:
        """The page itself, with the draft as it stands."""
        text = (await run_in_threadpool(draft, self.book, self.file)).text
        return Response(render("page.html", name=self.file.name, text=text), media_type="text/html")

    async def job_file(self, _: Request) -> Response:
        """The draft as a job file to be taken away."""
        text = (await run_in_threadpool(draft, self.book, self.file)).text
        return Response(
            text, media_type="application/toml", headers={"content-disposition": 'attachment; filename="job.toml"'}
        )

    async def draft(self, request: Request) -> Response:
        """The draft after what is asked was done to it, and the pieces of the page that show it."""
        asked = await _asked(request)
        if isinstance(asked, str):
            return PlainTextResponse(asked, 400)
        return JSONResponse(await run_in_threadpool(self.answer, *asked))

    def answer(self, asked: Asked, edit: Edit) -> dict[str, Any]:
        """The same, for the answer.

        Where something cannot be done, what is wrong with it; changes that cannot be written come back as `kept`.
        """
        trouble, kept = "", {}
        try:
            if edit.changes:
                changed(self.book, self.file, edit.changes, edit.standings, edit.date, edit.goes_on)
        except LakewrightError as error:
            trouble, kept = str(error), edit.changes
        try:
            self.step(edit.step)
        except LakewrightError as error:
            trouble = trouble or str(error)
        now = draft(self.book, self.file)
        return {
            **pieces(now.text, asked, self.file, trouble, kept),
            "keep": render("keep.html", draft=now, name=self.file.name, may_write=self.may_write),
            "number": now.number,
            "kept": kept,
        }

    def step(self, step: str) -> None:
        """Take a step with the draft; none where none is named."""
        if step in STEPS:
            stepped(self.book, self.file, step)
        elif step == "restart":
            restart(self.book, self.file)
        elif step == "write" and self.may_write:
            write_draft(self.book, self.file)

    async def choose(self, request: Request) -> Response:
        """What else would hold: a line of JSON whenever the search has come further, the choices on the last."""
        asked = await _asked(request)
        if isinstance(asked, str):
            return PlainTextResponse(asked, 400)
        text = (await run_in_threadpool(draft, self.book, self.file)).text
        if self.searching.locked():
            return PlainTextResponse("a search is under way already; it will be done, or can be stopped", 409)
        await self.searching.acquire()
        return StreamingResponse(self.search(text), media_type="application/x-ndjson")

    async def search(self, text: str) -> AsyncGenerator[str, None]:
        """The lines of one search, which has `searching` to itself; it stops where nobody waits for them."""
        loop, said, gone = asyncio.get_running_loop(), asyncio.Queue[str | None](), threading.Event()

        def tell(done: int, every: int) -> None:
            if gone.is_set():
                raise Stopped
            loop.call_soon_threadsafe(said.put_nowait, json.dumps({"done": done, "every": every}))

        async def work() -> str:
            try:
                return await run_in_threadpool(choices, text, self.file, tell)
            except Stopped:
                return ""
            finally:
                self.searching.release()
                said.put_nowait(None)

        task = asyncio.create_task(work())
        try:
            while (line := await said.get()) is not None:
                yield line + "\n"
            yield json.dumps({"choices": await task}) + "\n"
        finally:
            gone.set()

    async def static(self, request: Request) -> Response:
        """Style, script and type."""
        name = request.path_params["name"]
        if name == "page.css":
            return Response(style(), media_type="text/css")
        if name not in FILES:
            return PlainTextResponse("no such file", 404)
        package, where, kind = FILES[name]
        return Response(resources.files(package).joinpath(where).read_bytes(), media_type=kind)


def app_of(file: Path, book: Book, hosts: frozenset[str], may_write: bool = True) -> Starlette:
    """The page for one job file, answering these values of Host."""
    page = Page(file, book, may_write)
    routes = [
        Route("/", page.page),
        Route("/job.toml", page.job_file),
        Route("/draft", page.draft, methods=["POST"]),
        Route("/choices", page.choose, methods=["POST"]),
        Route("/static/{name}", page.static),
    ]
    return Starlette(routes=routes, middleware=[Middleware(Guard, hosts=hosts)])


async def _asked(request: Request) -> tuple[Asked, Edit] | str:
    """What was posted, or what is wrong with it."""
    body = b""
    async for some in request.stream():
        body += some
        if len(body) > LARGEST_POST:
            return f"found more than {LARGEST_POST} bytes; what one edits is some hundreds"
    try:
        return _parsed(body)
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
        return f"what was posted is not what the page posts: {type(error).__name__}"


def _parsed(body: bytes) -> tuple[Asked, Edit]:
    given: dict[str, Any] = json.loads(body)
    day, wide = given.get("day"), float(given.get("wide", 1200.0))
    goes_on = given.get("goes_on", False)
    if not (day is None or type(day) is int) or not math.isfinite(wide) or type(goes_on) is not bool:
        raise TypeError
    changes, standings = (
        {str(key): str(value) for key, value in dict(given.get(name, {})).items()} for name in ("changes", "standings")
    )
    part, finding, between, step = (_text(given, name) for name in ("part", "finding", "between", "step"))
    today = datetime.date.today().isoformat()
    return Asked(part, day, finding, wide, between), Edit(changes, standings, today, step, goes_on)


def _text(given: dict[str, Any], name: str) -> str:
    found = given.get(name, "")
    if not isinstance(found, str):
        raise TypeError
    return found
