"""The page's server: this machine alone, nothing from outside, one job file that is read and never written unasked."""

from __future__ import annotations

import math
from collections.abc import Awaitable, Callable
from importlib import resources
from pathlib import Path
from typing import Any

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import JSONResponse, PlainTextResponse, Response
from starlette.routing import Route
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from lakewright.stock.load import load_stock
from lakewright.web.look import style
from lakewright.web.view import Asked, pieces, render

LARGEST_DRAFT = 1_000_000
"""ours: a job file is some kilobytes; more is refused unread [bytes]."""

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src 'self' data:;"
    " connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
)
HEADERS = (
    (b"content-security-policy", POLICY.encode("ascii")),
    (b"x-content-type-options", b"nosniff"),
    (b"referrer-policy", b"no-referrer"),
    (b"cross-origin-opener-policy", b"same-origin"),
    (b"cross-origin-resource-policy", b"same-origin"),
    (b"cache-control", b"no-store"),
)
FILES = {
    "page.js": ("lakewright.web", "static/page.js", "text/javascript"),
    "regular.ttf": ("lakewright.documents", "fonts/CharisSIL-Regular.ttf", "font/ttf"),
    "bold.ttf": ("lakewright.documents", "fonts/CharisSIL-Bold.ttf", "font/ttf"),
}


class Guard:
    """Answers this machine's own browser alone: the right Host, no other site's page, and headers on everything."""

    def __init__(self, app: ASGIApp, hosts: frozenset[str]) -> None:
        self.app, self.hosts = app, hosts

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        refusal = self._refusal(scope)
        if refusal:
            await PlainTextResponse(refusal, 403)(scope, receive, self._with_headers(send))
            return
        await self.app(scope, receive, self._with_headers(send))

    def _refusal(self, scope: Scope) -> str:
        headers = {name.decode("latin-1"): value.decode("latin-1") for name, value in scope["headers"]}
        host = headers.get("host", "")
        if host not in self.hosts:
            return f"found Host {host!r}; this page answers {', '.join(sorted(self.hosts))} alone"
        origin = headers.get("origin")
        if scope["method"] == "POST" and origin is not None and origin != f"http://{host}":
            return "another site's page may not post here"
        if scope["method"] == "POST" and not headers.get("content-type", "").startswith("application/json"):
            return "what is posted here is JSON"
        return ""

    @staticmethod
    def _with_headers(send: Send) -> Callable[[Message], Awaitable[None]]:
        async def wrapped(message: Message) -> None:
            if message["type"] == "http.response.start":
                message["headers"] = [*message["headers"], *HEADERS]
            await send(message)

        return wrapped


def app_of(file: Path, text: str, hosts: frozenset[str]) -> Starlette:
    """The page for one job file.

    Parameters
    ----------
    file : where it stands; waters are looked for beside it
    text : as it was read; drafts live in the browser
    hosts : the values of Host that are answered
    """
    stock = load_stock()

    def show(asked: Asked) -> dict[str, str]:
        return pieces(asked, file, stock)

    async def page(_: Request) -> Response:
        return Response(render("page.html", name=file.name, text=text), media_type="text/html")

    async def draft(request: Request) -> Response:
        asked = await _asked(request)
        if isinstance(asked, str):
            return PlainTextResponse(asked, 400)
        return JSONResponse(await run_in_threadpool(show, asked))

    async def static(request: Request) -> Response:
        name = request.path_params["name"]
        if name == "page.css":
            return Response(style(), media_type="text/css")
        if name not in FILES:
            return PlainTextResponse("no such file", 404)
        package, where, kind = FILES[name]
        return Response(resources.files(package).joinpath(where).read_bytes(), media_type=kind)

    routes = [
        Route("/", page),
        Route("/draft", draft, methods=["POST"]),
        Route("/static/{name}", static),
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
        given = await run_in_threadpool(_parsed, body)
    except (ValueError, KeyError, TypeError, RecursionError) as error:
        return f"what was posted is not what the page posts: {type(error).__name__}"
    return given


def _parsed(body: bytes) -> Asked:
    import json

    given: dict[str, Any] = json.loads(body)
    day, wide = given.get("day"), float(given.get("wide", 1200.0))
    if not isinstance(given["text"], str) or not (day is None or type(day) is int) or not math.isfinite(wide):
        raise TypeError
    changes = {str(key): str(value) for key, value in dict(given.get("changes", {})).items()}
    return Asked(given["text"], changes, str(given.get("part", "")), day, str(given.get("finding", "")), wide)
