"""The page's server: one job file that is read and never written, drafts that live in the browser."""

from __future__ import annotations

import asyncio
import datetime
import json
import math
import threading
from collections.abc import AsyncGenerator
from importlib import resources
from pathlib import Path
from typing import Any

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import JSONResponse, PlainTextResponse, Response, StreamingResponse
from starlette.routing import Route

from lakewright.web.choices import choices
from lakewright.web.guard import Guard
from lakewright.web.look import style
from lakewright.web.view import Asked, pieces, render

LARGEST_DRAFT = 1_000_000
"""ours: a job file is some kilobytes; more is refused unread [bytes]."""

FILES = {
    "page.js": ("lakewright.web", "static/page.js", "text/javascript"),
    "regular.ttf": ("lakewright.documents", "fonts/CharisSIL-Regular.ttf", "font/ttf"),
    "bold.ttf": ("lakewright.documents", "fonts/CharisSIL-Bold.ttf", "font/ttf"),
}


class Stopped(Exception):
    """Nobody waits for this search any more."""


class Page:
    """The page of one job file.

    Parameters
    ----------
    file : where it stands; waters are looked for beside it
    text : as it was read
    """

    def __init__(self, file: Path, text: str) -> None:
        self.file, self.text = file, text
        self.searching = asyncio.Lock()

    async def page(self, _: Request) -> Response:
        """The page itself, with the job's text as its draft."""
        return Response(render("page.html", name=self.file.name, text=self.text), media_type="text/html")

    async def draft(self, request: Request) -> Response:
        """The pieces of the page that show a draft."""
        asked = await _asked(request)
        if isinstance(asked, str):
            return PlainTextResponse(asked, 400)
        return JSONResponse(await run_in_threadpool(pieces, asked, self.file))

    async def choose(self, request: Request) -> Response:
        """What else would hold: a line of JSON whenever the search has come further, the choices on the last."""
        asked = await _asked(request)
        if isinstance(asked, str):
            return PlainTextResponse(asked, 400)
        if self.searching.locked():
            return PlainTextResponse("a search is under way already; it will be done, or can be stopped", 409)
        await self.searching.acquire()
        return StreamingResponse(self.search(asked), media_type="application/x-ndjson")

    async def search(self, asked: Asked) -> AsyncGenerator[str, None]:
        """The lines of one search, which has `searching` to itself; it stops where nobody waits for them."""
        loop, said, gone = asyncio.get_running_loop(), asyncio.Queue[str | None](), threading.Event()

        def tell(done: int, every: int) -> None:
            if gone.is_set():
                raise Stopped
            loop.call_soon_threadsafe(said.put_nowait, json.dumps({"done": done, "every": every}))

        async def work() -> str:
            try:
                return await run_in_threadpool(choices, asked, self.file, tell)
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


def app_of(file: Path, text: str, hosts: frozenset[str]) -> Starlette:
    """The page for one job file, answering these values of Host."""
    page = Page(file, text)
    routes = [
        Route("/", page.page),
        Route("/draft", page.draft, methods=["POST"]),
        Route("/choices", page.choose, methods=["POST"]),
        Route("/static/{name}", page.static),
    ]
    return Starlette(routes=routes, middleware=[Middleware(Guard, hosts=hosts)])


async def _asked(request: Request) -> Asked | str:
    """What was posted, or what is wrong with it."""
    body = b""
    async for some in request.stream():
        body += some
        if len(body) > LARGEST_DRAFT:
            return f"found more than {LARGEST_DRAFT} bytes; a job file is some kilobytes"
    try:
        return _parsed(body)
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
        return f"what was posted is not what the page posts: {type(error).__name__}"


def _parsed(body: bytes) -> Asked:
    given: dict[str, Any] = json.loads(body)
    day, wide = given.get("day"), float(given.get("wide", 1200.0))
    if not isinstance(given["text"], str) or not (day is None or type(day) is int) or not math.isfinite(wide):
        raise TypeError
    changes, standings = (
        {str(key): str(value) for key, value in dict(given.get(name, {})).items()} for name in ("changes", "standings")
    )
    part, finding, between = (str(given.get(name, "")) for name in ("part", "finding", "between"))
    today = datetime.date.today().isoformat()
    return Asked(given["text"], changes, part, day, finding, wide, standings, between, today)
