"""The draft on the page: back and forth, kept through a kill and a closed tab, one for two tabs, and to the disk when
that is asked."""

from __future__ import annotations

import re
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import httpx
import pytest

from lakewright.api.drafts import Book, draft
from lakewright.web.app import Page
from lakewright.web.jobs import Jobs
from lakewright.web.posts import Edit
from lakewright.web.view import Asked
from tests.web.conftest import Server, Watched, copied

pytestmark = pytest.mark.serial
Opened = Callable[..., Watched]


def type_in(page: Watched, key: str, value: str) -> None:
    """As a person does, letter by letter."""
    page.view.focus(f'#fields [data-key="{key}"]')
    page.view.keyboard.press("Control+a")
    page.view.keyboard.type(value, delay=40)
    page.settle()


def value(page: Watched, key: str) -> str:
    """What a field of the part in hand shows."""
    found: str = page.view.input_value(f'#fields [data-key="{key}"]')
    return found


def click(page: Watched, choose: str) -> None:
    page.view.click(choose)
    page.settle()


def test_edits_are_undone_and_done_again_by_hand_and_by_key(own_server: Server, opened: Opened) -> None:
    own_server.start()
    page = opened(own_server)
    assert page.view.locator("[data-step=undo]").is_disabled()
    before = page.draft()
    type_in(page, "stand.riser", "20 in")
    type_in(page, "stand.at", "165 ft")
    after = page.draft()
    click(page, "[data-step=undo]")
    assert (value(page, "stand.riser"), value(page, "stand.at")) == ("20 in", "170 ft")
    click(page, "[data-step=undo]")
    # Five letters were one step; what was measured is measured again.
    assert page.draft() == before
    assert page.view.locator("[data-step=undo]").is_disabled()
    page.view.focus('#part [data-part="inlet"]')
    for keys in ("Control+Shift+Z", "Control+Shift+Z"):
        page.view.keyboard.press(keys)
        page.settle()
    assert page.draft() == after
    page.view.keyboard.press("Control+z")
    page.settle()
    assert value(page, "stand.at") == "170 ft"


def test_a_draft_outlives_a_killed_server_and_a_closed_tab(own_server: Server, opened: Opened) -> None:
    on_disk = own_server.file.read_text(encoding="utf-8")
    own_server.start()
    page = opened(own_server)
    type_in(page, "stand.riser", "20 in")
    page.view.context.close()
    own_server.stop()
    own_server.start()
    again = opened(own_server, anew=False)
    assert value(again, "stand.riser") == "20 in"
    assert "as it was" in again.text("keep")
    click(again, "[data-step=undo]")
    assert value(again, "stand.riser") == "24 in"
    assert own_server.file.read_text(encoding="utf-8") == on_disk


def test_two_tabs_agree(cabin: Server, opened: Opened) -> None:
    one = opened(cabin)
    other = Watched(one.view.context.new_page())
    other.view.goto(cabin.address)
    other.settle()
    one.set("stand.riser", "20 in")
    one.settle()
    other.view.wait_for_selector("[data-step=undo]:enabled")
    other.settle()
    assert value(other, "stand.riser") == "20 in"
    # Each adds to what is there, and takes nothing of the other's back.
    other.set("stand.at", "165 ft")
    other.settle()
    for _ in range(200):
        if value(one, "stand.at") == "165 ft":
            break
        one.view.wait_for_timeout(50)
    one.settle()
    for page in (one, other):
        assert (value(page, "stand.riser"), value(page, "stand.at")) == ("20 in", "165 ft")
    assert one.draft() == other.draft()


def test_a_draft_goes_to_the_disk_when_that_is_asked_and_not_over_anothers_work(
    own_server: Server, opened: Opened
) -> None:
    own_server.start()
    page = opened(own_server)
    assert page.view.locator("[data-step=write]").count() == 0
    type_in(page, "stand.riser", "20 in")
    click(page, "[data-step=write]")
    assert own_server.file.read_text(encoding="utf-8") == page.draft()
    assert '"20 in"' in page.draft()
    assert "As year_round_cabin.toml has it" in page.text("keep")
    type_in(page, "stand.riser", "21 in")
    theirs = page.draft().replace("Heron Point cabin", "Heron Point lodge").replace("21 in", "22 in")
    own_server.file.write_text(theirs, encoding="utf-8")
    click(page, "[data-step=write]")
    assert "has changed on the disk" in page.text("trouble")
    assert own_server.file.read_text(encoding="utf-8") == theirs
    click(page, "[data-step=restart]")
    assert page.view.inner_text("h1") == "Heron Point lodge"
    assert value(page, "stand.riser") == "22 in"
    click(page, "[data-step=undo]")
    assert value(page, "stand.riser") == "21 in"


def test_the_draft_is_taken_away_as_a_file(cabin: Server, opened: Opened) -> None:
    page = opened(cabin)
    type_in(page, "stand.riser", "20 in")
    answer = httpx.get(f"{cabin.address}job.toml")
    assert answer.text == page.draft()
    assert re.match("attachment", answer.headers["content-disposition"])


def test_what_the_example_says_is_not_written_over(tmp_path: Path) -> None:
    file = copied(tmp_path)
    before = file.read_text(encoding="utf-8")
    with closing(Book(tmp_path / "book.sqlite")) as book:
        draft(book, file)
        edit = Edit({"stand.riser": "20 in"}, {}, "2026-11-25", "write", False)
        jobs = Jobs(file, book, may_write=False)
        answer = Page(jobs).answer(jobs.served, Asked(), edit)
    assert '"20 in"' in answer["text"]
    assert "Write to" not in answer["keep"]
    assert file.read_text(encoding="utf-8") == before
