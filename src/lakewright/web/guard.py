"""Who is answered, and with which headers: this machine's own browser alone, or who has the token; this page alone."""

from __future__ import annotations

import hmac
from collections.abc import Awaitable, Callable
from http.cookies import CookieError, SimpleCookie
from urllib.parse import parse_qs

from starlette.responses import PlainTextResponse, RedirectResponse, Response
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
COOKIE = "lakewright"


class Guard:
    """Stands before every route: refuses what is not from this page, and puts its headers on every answer.

    hosts : the values of Host that are answered
    token : what must be known where others than this machine are answered; nothing where it is this machine alone
    """

    def __init__(self, app: ASGIApp, hosts: frozenset[str], token: str = "") -> None:
        self.app, self.hosts, self.token = app, hosts, token

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        headers = {name.decode("latin-1"): value.decode("latin-1") for name, value in scope["headers"]}
        refusal = self._refusal(scope, headers)
        answer: ASGIApp = PlainTextResponse(refusal, 403) if refusal else self._let_in(scope, headers) or self.app
        await answer(scope, receive, _with_headers(send))

    def _refusal(self, scope: Scope, headers: dict[str, str]) -> str:
        host = headers.get("host", "")
        if host not in self.hosts:
            return f"found Host {host!r}; this page answers {', '.join(sorted(self.hosts))} alone"
        if _is_of_another_site(headers) and not (scope["method"] == "GET" and scope["path"] == "/"):
            return "another site's page may not ask here"
        if scope["method"] != "POST":
            return ""
        if headers.get("origin", f"http://{host}") != f"http://{host}":
            return "another site's page may not post here"
        if headers.get("content-type", "").partition(";")[0].strip() != "application/json":
            return "what is posted here is JSON"
        return ""

    def _let_in(self, scope: Scope, headers: dict[str, str]) -> Response | None:
        """What is answered in place of the page to who has not shown the token; None to who has."""
        if not self.token or self._is(_cookie(headers.get("cookie", ""))):
            return None
        asked = parse_qs(scope["query_string"].decode("latin-1")) if scope["path"] == "/" else {}
        if not self._is(asked.get("token", [""])[0]):
            return PlainTextResponse("open the address that was shown where this page was started, token and all", 401)
        # The token leaves the address at once, so that no history and no shared link holds it.
        answer = RedirectResponse("/", 303)
        answer.set_cookie(COOKIE, self.token, httponly=True, samesite="strict", path="/")
        return answer

    def _is(self, shown: str) -> bool:
        """Whether it is the token; how long that takes tells nothing of how much of it was right."""
        return hmac.compare_digest(shown.encode("utf-8", "surrogateescape"), self.token.encode("utf-8"))


def _cookie(header: str) -> str:
    try:
        found = SimpleCookie(header).get(COOKIE)
    except CookieError:
        return ""
    return found.value if found else ""


def _is_of_another_site(headers: dict[str, str]) -> bool:
    """What the browser itself says of a request, where it says so."""
    return headers.get("sec-fetch-site", "same-origin") not in ("same-origin", "none")


def _with_headers(send: Send) -> Callable[[Message], Awaitable[None]]:
    async def wrapped(message: Message) -> None:
        if message["type"] == "http.response.start":
            message["headers"] = [*message["headers"], *HEADERS]
        await send(message)

    return wrapped
