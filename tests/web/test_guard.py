"""Who is answered, with which headers, and what is refused."""

from __future__ import annotations

import asyncio
import base64
import json
import re
import threading
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import httpx
import pytest

from lakewright.book.drafts import Book
from lakewright.web import searching
from lakewright.web.app import app_of
from lakewright.web.jobs import Jobs
from lakewright.web.posts import LARGEST_POST, LARGEST_SHEET
from tests.apart import run_apart

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "year_round_cabin.toml"
HOST = "127.0.0.1:8437"
TEXT = EXAMPLE.read_text(encoding="utf-8")
DRAFT = {"changes": {}, "part": "pump", "day": None, "finding": "lift_is_within_practice", "wide": 1200}


class Client:
    """Asks the page's program without a server between."""

    def __init__(self, book: Book, file: Path = EXAMPLE) -> None:
        self.app = app_of(Jobs(file, book, True), frozenset({HOST}))

    def ask(self, how: str, path: str, **what: Any) -> httpx.Response:
        """One question and its answer."""
        return run_apart(self.asked(how, path, **what))

    async def asked(self, how: str, path: str, **what: Any) -> httpx.Response:
        """The same, beside others."""
        transport = httpx.ASGITransport(app=self.app)
        async with httpx.AsyncClient(transport=transport, base_url=f"http://{HOST}") as client:
            return await client.request(how, path, **what)


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Book]:
    with closing(Book(tmp_path / "book.sqlite")) as opened:
        yield opened


@pytest.fixture
def client(book: Book) -> Client:
    return Client(book)


@pytest.mark.parametrize(
    "path", ["/", "/static/page.css", "/static/draft.js", "/static/page.js", "/static/bold.ttf", "/nowhere"]
)
def test_every_answer_carries_the_policy(client: Client, path: str) -> None:
    headers = client.ask("GET", path).headers
    policy = headers["content-security-policy"]
    assert "default-src 'none'" in policy
    assert "unsafe" not in policy
    assert "frame-ancestors 'none'" in policy
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["referrer-policy"] == "no-referrer"
    assert headers["cache-control"] == "no-store"


@pytest.mark.parametrize("host", ["elsewhere.example", "127.0.0.1", "127.0.0.1:80", "127.0.0.1.elsewhere.example:8437"])
def test_another_host_is_refused(client: Client, host: str) -> None:
    answer = client.ask("GET", "/", headers={"host": host})
    assert answer.status_code == 403
    assert "content-security-policy" in answer.headers
    assert "Heron" not in answer.text


@pytest.mark.parametrize(
    "headers",
    [
        {"origin": "http://elsewhere.example"},
        {"origin": "null"},
        {"origin": "https://127.0.0.1:8437"},
        {"sec-fetch-site": "cross-site"},
        {"sec-fetch-site": "same-site"},
        {"content-type": "text/plain"},
        {"content-type": "application/x-www-form-urlencoded"},
    ],
)
@pytest.mark.parametrize("path", ["/draft", "/choices", "/leaf/money", "/new", "/begin"])
def test_another_sites_post_is_refused(client: Client, path: str, headers: dict[str, str]) -> None:
    sent = {"content-type": "application/json", **headers}
    assert client.ask("POST", path, content=json.dumps(DRAFT), headers=sent).status_code == 403


@pytest.mark.parametrize("path", ["/job.toml", "/paper/packet.zip", "/static/page.js"])
def test_another_site_gets_nothing_to_take_away_or_to_show(client: Client, path: str) -> None:
    assert client.ask("GET", path, headers={"sec-fetch-site": "cross-site"}).status_code == 403


def test_the_pages_own_post_is_answered(client: Client) -> None:
    sent = {"origin": f"http://{HOST}", "sec-fetch-site": "same-origin"}
    answer = client.ask("POST", "/draft", json=DRAFT, headers=sent)
    assert answer.status_code == 200
    assert set(answer.json()) == {
        *("text", "number", "kept", "trouble"),
        *("head", "keep", "drawing", "decides", "part", "foot"),
    }


@pytest.mark.parametrize(
    "body",
    [
        b"",
        b"[]",
        b"{",
        b"7",
        b'{"part": 7}',
        b'{"step": ["undo"]}',
        b'{"goes_on": 1}',
        b'{"day": true}',
        b'{"day": "1"}',
        b'{"wide": NaN}',
        b'{"wide": [1]}',
        b'{"changes": 7}',
        b"\xff\xfe",
        b"[" * 200_000,
        b'{"wide": 1' + b"0" * 400 + b"}",
        b'{"changes": {"job.title": "half a letter \\ud800"}}',
        b'{"\\udfff": 1}',
    ],
    ids=lambda body: repr(body[:24]),
)
def test_what_the_page_would_never_post_is_refused_in_words(client: Client, body: bytes) -> None:
    answer = client.ask("POST", "/draft", content=body, headers={"content-type": "application/json"})
    assert answer.status_code == 400
    assert "not what the page posts" in answer.text


def test_a_body_without_end_is_not_read_to_its_end(client: Client) -> None:
    body = json.dumps({**DRAFT, "part": "x" * LARGEST_POST})
    answer = client.ask("POST", "/draft", content=body, headers={"content-type": "application/json"})
    assert answer.status_code == 400
    assert str(LARGEST_POST) in answer.text


def test_no_piece_holds_style_or_script_of_its_own(client: Client) -> None:
    pieces = client.ask("POST", "/draft", json=DRAFT).json()
    # The job's text is no markup; the page escapes it where it shows it.
    for name in ("text", "number", "kept"):
        pieces.pop(name)
    pieces["page"] = client.ask("GET", "/").text
    client.ask("POST", "/draft", json={**DRAFT, "changes": {"delivery.tank": "open"}})
    pieces["choices"] = client.ask("POST", "/choices", json=DRAFT).text
    for name in ("money", "bench", "visits", "paper", "waters", "begin", "beside", "own"):
        pieces[name] = json.loads(client.ask("POST", f"/leaf/{name}", json=DRAFT).text)["html"]
    for name, piece in pieces.items():
        assert not re.search(r"<style|\sstyle=|\son\w+=|javascript:", piece, re.IGNORECASE), name
        assert re.findall(r"<script[^>]*>", piece) in ([], ['<script type="module" src="/static/page.js">']), name
        assert not re.search(r"https?://(?!127)", piece), name


def test_hostile_text_is_escaped_in_every_piece(book: Book, tmp_path: Path) -> None:
    hostile = "<b onclick=x>&amp;'"
    file = tmp_path / "<i>job.toml"
    file.write_text(re.sub(r"(?m)^title\s*=.*$", f'title = "{hostile}"', TEXT), encoding="utf-8")
    client = Client(book, file)
    changes = {"pump.stock": hostile, "stand.form": hostile}
    for asked in (DRAFT, {**DRAFT, "changes": changes}, {**DRAFT, "changes": {hostile: hostile}}):
        answer = client.ask("POST", "/draft", json=asked).json()
        answer.pop("text")
        assert any("&lt;b onclick" in str(piece) for piece in answer.values())
        answer.pop("kept")
        assert not any("<b onclick" in str(piece) or "<i>" in str(piece) for piece in answer.values())


def test_a_second_search_is_refused_while_one_is_under_way(client: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    under_way, finish = threading.Event(), threading.Event()

    def slow(*_: Any) -> str:
        under_way.set()
        assert finish.wait(10.0)
        return "found"

    monkeypatch.setattr(searching, "choices", slow)

    async def ask_twice(client: Client) -> tuple[httpx.Response, httpx.Response]:
        first = asyncio.create_task(client.asked("POST", "/choices", json=DRAFT))
        assert await asyncio.to_thread(under_way.wait, 10.0)
        second = await client.asked("POST", "/choices", json=DRAFT)
        finish.set()
        return await first, second

    first, second = run_apart(ask_twice(client))
    assert second.status_code == 409
    assert "under way" in second.text
    assert json.loads(first.text.splitlines()[-1]) == {"choices": "found"}
    assert client.ask("POST", "/choices", json=DRAFT).status_code == 200


def test_a_search_that_nobody_waits_for_stops(monkeypatch: pytest.MonkeyPatch) -> None:
    stopped = threading.Event()

    def endless(_: Any, __: Any, tell: Any) -> str:
        try:
            for n in range(10_000):
                tell(n, 10_000)
                threading.Event().wait(0.005)
        except searching.Stopped:
            stopped.set()
            raise
        return "never"

    monkeypatch.setattr(searching, "choices", endless)

    async def ask_and_leave() -> None:
        search = searching.Searching()
        await search.lock.acquire()
        lines = search.lines(TEXT, EXAMPLE)
        assert json.loads(await anext(lines)) == {"done": 0, "every": 10_000}
        await lines.aclose()
        async with asyncio.timeout(10.0):
            async with search.lock:
                pass

    run_apart(ask_and_leave())
    assert stopped.is_set()


TOKEN = "a token that nobody guesses"


@pytest.fixture
def others(book: Book) -> Client:
    """The page as others than this machine's own browser ask for it."""
    client = Client(book)
    client.app = app_of(Jobs(EXAMPLE, book, True), frozenset({HOST}), TOKEN)
    return client


@pytest.mark.parametrize("path", ["/", "/job.toml", "/static/page.js", "/paper/site.pdf", "/nowhere"])
@pytest.mark.parametrize(
    "cookie", ["", "lakewright=", "lakewright=another", f"other={TOKEN}", "lakewright=\xff", "=;=;"]
)
def test_who_has_no_token_gets_nothing(others: Client, path: str, cookie: str) -> None:
    answer = others.ask("GET", path, headers={"cookie": cookie.encode("latin-1")})
    assert answer.status_code == 401
    assert "Heron" not in answer.text
    assert "content-security-policy" in answer.headers
    assert "set-cookie" not in answer.headers


def test_a_post_without_the_token_changes_nothing(others: Client, client: Client) -> None:
    changed = {**DRAFT, "changes": {"stand.riser": "20 in"}}
    assert others.ask("POST", "/draft", json=changed).status_code == 401
    assert '"20 in"' not in client.ask("POST", "/draft", json=DRAFT).json()["text"]


@pytest.mark.parametrize("shown", ["", "another", TOKEN[:-1], f"{TOKEN}x", "\ud800".encode("utf-8", "surrogatepass")])
def test_a_wrong_token_is_none(others: Client, shown: str | bytes) -> None:
    assert others.ask("GET", "/", params={"token": shown}).status_code == 401


def test_the_token_becomes_a_cookie_and_leaves_the_address(others: Client) -> None:
    answer = others.ask("GET", "/", params={"token": TOKEN})
    assert (answer.status_code, answer.headers["location"]) == (303, "/")
    said = answer.headers["set-cookie"].lower()
    assert "httponly" in said
    assert "samesite=strict" in said
    cookie = answer.headers["set-cookie"].partition(";")[0]
    assert "Heron" in others.ask("GET", "/", headers={"cookie": cookie}).text
    # It opens the page alone: nowhere else is it taken from an address.
    assert others.ask("GET", "/job.toml", params={"token": TOKEN}).status_code == 401


def test_each_leaf_refuses_what_the_page_would_never_post(client: Client) -> None:
    for name, body in (
        ("beside", {"designs": 7}),
        ("beside", {"designs": [7]}),
        ("beside", {"one": 7}),
        ("own", {"name": "a.csv", "content": "not base 64!"}),
        ("own", {"name": ["a.csv"]}),
        ("money", {"job": 7}),
    ):
        answer = client.ask("POST", f"/leaf/{name}", json=body)
        said = answer.text
        assert "not what the page posts" in said, (name, body)
    assert client.ask("POST", "/leaf/nowhere", json={}).status_code == 404


@pytest.mark.parametrize("path", ["/new", "/begin"])
@pytest.mark.parametrize("body", [b"", b"[]", b'{"answers": 7}', b'{"text": 7}', b'{"name": [1]}'])
def test_beginning_refuses_what_the_page_would_never_post(client: Client, path: str, body: bytes) -> None:
    answer = client.ask("POST", path, content=body, headers={"content-type": "application/json"})
    assert answer.status_code in (200, 400)
    assert answer.status_code == 400 or not answer.json()["address"]


def test_a_sheet_without_end_is_not_read_to_its_end(client: Client) -> None:
    body = json.dumps({"name": "a.csv", "content": "x" * LARGEST_SHEET})
    answer = client.ask("POST", "/leaf/own", content=body, headers={"content-type": "application/json"})
    assert answer.status_code == 400


def test_hostile_names_and_rows_are_escaped_in_every_leaf(book: Book, tmp_path: Path) -> None:
    hostile = "<b onclick=x>&amp;'"
    file = tmp_path / "job.toml"
    file.write_text(re.sub(r"(?m)^title\s*=.*$", f'title = "{hostile}"', TEXT), encoding="utf-8")
    (tmp_path / "waters").mkdir()
    (tmp_path / "waters" / "<b onclick=x>.toml").write_text('name = "<b onclick=x>"', encoding="utf-8")
    client = Client(book, file)
    design = {"name": hostile, "writes": {"stand.riser": "20 in", hostile: hostile}}
    sheet = base64.b64encode(f"name,like\n{hostile},{hostile}\n".encode()).decode()
    for name, besides in (
        ("money", {}),
        ("bench", {}),
        ("visits", {}),
        ("paper", {}),
        ("waters", {}),
        ("begin", {}),
        ("beside", {"designs": [design], "other": "0"}),
        ("beside", {"designs": [{**design, "writes": {"stand.riser": "20 in"}}], "other": "0"}),
        ("own", {"name": f"{hostile}.csv", "content": sheet}),
        ("own", {"name": f"{hostile}.doc", "content": ""}),
    ):
        answer = client.ask("POST", f"/leaf/{name}", json=besides)
        assert answer.status_code == 200, (name, answer.text)
        assert "<b onclick" not in json.loads(answer.text.splitlines()[-1])["html"], name
    said = client.ask("POST", "/new", json={"answers": {"site.water": hostile, "pump.height": hostile}}).json()
    assert "<b onclick" not in said["verdict"]
    said = client.ask("POST", "/begin", json={"name": hostile, "text": f"[job]\ntitle = 7\n'{hostile}' = 1"}).json()
    assert "<b onclick" not in said["trouble"]
