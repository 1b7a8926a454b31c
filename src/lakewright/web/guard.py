"""Who is answered, and with which headers: this machine's own browser alone, showing this page alone."""

from __future__ import annotations

from collections.abc import Awaitable, Callable

from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

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


class Guard:
    """Stands before every route: refuses what is not from this page, and puts its headers on every answer."""

    def __init__(self, app: ASGIApp, hosts: frozenset[str]) -> None:
        self.app, self.hosts = app, hosts

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        refusal = self._refusal(scope)
        answer = PlainTextResponse(refusal, 403) if refusal else self.app
        await answer(scope, receive, _with_headers(send))

    def _refusal(self, scope: Scope) -> str:
        headers = {name.decode("latin-1"): value.decode("latin-1") for name, value in scope["headers"]}
        host = headers.get("host", "")
        if host not in self.hosts:
            return f"found Host {host!r}; this page answers {', '.join(sorted(self.hosts))} alone"
        if scope["method"] != "POST":
            return ""
        if headers.get("origin", f"http://{host}") != f"http://{host}" or _is_of_another_site(headers):
            return "another site's page may not post here"
        if headers.get("content-type", "").partition(";")[0].strip() != "application/json":
            return "what is posted here is JSON"
        return ""


def _is_of_another_site(headers: dict[str, str]) -> bool:
    """What the browser itself says of a request, where it says so."""
    return headers.get("sec-fetch-site", "same-origin") not in ("same-origin", "none")


def _with_headers(send: Send) -> Callable[[Message], Awaitable[None]]:
    async def wrapped(message: Message) -> None:
        if message["type"] == "http.response.start":
            message["headers"] = [*message["headers"], *HEADERS]
        await send(message)

    return wrapped
