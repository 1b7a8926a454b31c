"""Beginning another job: by ten questions, from an example, with a job file that is dropped; and none of it lost."""

from __future__ import annotations

import re
import zipfile
from collections.abc import Callable
from typing import Any

import httpx
import pytest

from tests.web.conftest import EXAMPLES, Server, Watched, unfold

pytestmark = pytest.mark.serial
Opened = Callable[..., Watched]

# A site described in words: an invented pond with a pump six feet up the bank.
TOLD = {
    "site.kind": "lake",
    "site.water": "Alder Pond",
    "need.baths": "1",
    "pump.height": "6 ft",
    "low": "2 ft",
    "flood": "3 ft",
    "pump.distance": "20 ft",
    "ten": "60 ft",
    "delivery.length": "80 ft",
    "rise": "4 ft",
    "tap": "12 ft",
    "site.bed.kind": "sand",
}


def answer(page: Watched, said: dict[str, str]) -> None:
    """Answer what is asked, and wait until that was looked at."""
    for key, words in said.items():
        field = page.view.locator(f'[data-answer="{key}"]')
        if field.evaluate("each => each.tagName") == "SELECT":
            field.select_option(words)
        else:
            field.fill(words)
    for _ in range(400):
        if page.view.evaluate("document.body.dataset.answered === document.body.dataset.answering"):
            return
        page.view.wait_for_timeout(25)
    raise AssertionError("what was answered was not looked at")


def drop(view: Any, name: str, text: str) -> None:
    """Drop a file on the page, as a hand does."""
    view.evaluate(
        """([name, text]) => { const data = new DataTransfer();
        data.items.add(new File([text], name));
        const event = new DragEvent("drop", { dataTransfer: data, bubbles: true, cancelable: true });
        document.body.dispatchEvent(event); }""",
        [name, text],
    )


def test_ten_questions_say_go_after_three_and_lead_to_a_draft(own_server: Server, opened: Opened) -> None:
    own_server.start()
    page = opened(own_server)
    page.view.click("#keep [data-unfold=begin]")
    page.view.wait_for_selector("#questions")
    assert page.view.locator("#questions fieldset").count() == 10
    answer(page, {})  # nothing yet: that too is looked at
    assert "questions 1, 4 and 5" in page.text("verdict")
    answer(page, {key: TOLD[key] for key in ("site.kind", "pump.height", "pump.distance")})
    assert page.text("verdict").startswith("Go on")
    answer(page, {"pump.height": "40 ft"})
    assert page.text("verdict").startswith("No go.")
    assert page.view.locator("#verdict li").count() >= 1
    answer(page, {"pump.height": "6 parsecs"})
    wrong = page.view.locator('[data-asked="pump.height"] .wrong')
    assert "6 parsecs" in wrong.inner_text()
    assert page.view.get_attribute('[data-answer="pump.height"]', "aria-invalid") == "true"
    answer(page, TOLD)
    page.view.click("[data-begin]")
    page.view.wait_for_url(re.compile(r"\?job=alder-pond"))
    page.settle()
    assert page.view.inner_text("h1") == "Alder Pond"
    assert 'height = { value = "6 ft", told' in page.draft()
    assert "there is no alder-pond.toml yet" in page.text("keep")
    # It is written when that is asked, beside the job that is served.
    written = own_server.file.with_name("alder-pond.toml")
    assert not written.exists()
    page.view.click("[data-step=write]")
    page.settle()
    assert written.read_text(encoding="utf-8") == page.draft()
    assert page.view.evaluate("localStorage.getItem('answers')") is None


def test_the_whole_job_from_a_call_to_its_packet(own_server: Server, opened: Opened) -> None:
    own_server.start()
    page = opened(own_server)
    unfold(page, "begin")
    answer(page, TOLD)
    page.view.click("[data-begin]")
    page.view.wait_for_url(re.compile(r"\?job=alder-pond"))
    page.settle()
    assert "No pump is chosen yet" in page.text("head")
    assert "wait until what is open is chosen" in page.text("decides")
    page.view.click("#search")
    page.view.wait_for_selector("#choices .shortlist", timeout=60_000)
    page.view.click("#choices [data-take] >> nth=0")
    page.settle()
    assert "on the worst day" in page.text("head")
    assert "$" in page.text("head")
    # In the middle of it the program is killed, and nothing is lost.
    page.view.click('#part [data-part="pump"]')
    page.settle()
    own_server.stop()
    page.set("pump.distance", "22 ft")
    page.view.wait_for_selector("#silent:not(:empty)")
    own_server.start()
    page.settle()
    assert '"22 ft"' in page.draft()
    unfold(page, "money")
    assert "diaphragm tank" in page.view.inner_text("#leaf-money .bill")
    unfold(page, "paper")
    with page.view.expect_download(timeout=60_000) as waited:
        page.view.click('#leaf-paper a[href^="/paper/packet.zip"]')
    assert waited.value.suggested_filename == "alder-pond-packet.zip"
    with zipfile.ZipFile(waited.value.path()) as pack:
        assert {"alder-pond-quote.pdf", "alder-pond-parts.csv", "alder-pond-bench.pdf"} <= set(pack.namelist())
    # The browser itself reports each post that met nobody.
    assert all("ERR_" in said for said in page.wrong)
    page.wrong.clear()


def test_what_was_answered_outlives_a_closed_page_and_a_killed_server(own_server: Server, opened: Opened) -> None:
    own_server.start()
    page = opened(own_server)
    unfold(page, "begin")
    answer(page, {"site.water": "Alder Pond"})
    own_server.stop()
    own_server.start()
    page.view.reload()
    page.settle()
    unfold(page, "begin")
    assert page.view.input_value('[data-answer="site.water"]') == "Alder Pond"
    page.wrong.clear()


def test_what_is_asked_follows_what_was_answered(cabin: Server, opened: Opened) -> None:
    page = opened(cabin)
    unfold(page, "begin")
    by = page.view.locator('[data-asked="need.winter_by"]')
    assert not by.is_visible()
    answer(page, {"need.season": "hauled"})
    assert by.is_visible()


def test_an_example_is_opened_and_never_written(cabin: Server, opened: Opened) -> None:
    before = {file.name: file.read_bytes() for file in EXAMPLES.glob("*.toml")}
    page = opened(cabin)
    unfold(page, "begin")
    page.view.click('#leaf-begin a[href*="stream_irrigation"]')
    page.view.wait_for_url(re.compile("job=example"))
    page.settle()
    assert "on the worst day" in page.text("head")
    page.view.click('#part [data-part="pump"]')
    page.settle()
    page.set("pump.distance", "9 m")
    page.settle()
    assert '"9 m"' in page.draft()
    assert page.view.locator("[data-step=write]").count() == 0
    httpx.post(f"{cabin.address}draft", json={"job": "example:stream_irrigation.toml", "step": "write"})
    assert {file.name: file.read_bytes() for file in EXAMPLES.glob("*.toml")} == before


def test_a_dropped_job_file_begins_a_job_and_a_bad_one_tells_its_mistakes(own_server: Server, opened: Opened) -> None:
    own_server.start()
    page = opened(own_server)
    text = (EXAMPLES / "stock_tank.toml").read_text(encoding="utf-8")
    drop(page.view, "bad.toml", text.replace("[pump]", "[pomp]", 1))
    page.view.wait_for_selector("#dropped .trouble")
    assert "pomp" in page.text("dropped")
    assert "nothing was begun" in page.text("dropped")
    drop(page.view, "huge.toml", "#" * 160_000)
    page.view.wait_for_timeout(300)
    assert "at most are read here" in page.text("dropped")
    drop(page.view, "My Tank.toml", text)
    page.view.wait_for_url(re.compile(r"\?job=my-tank"))
    page.settle()
    assert page.draft() == text
    # The same name again is another job.
    drop(page.view, "My Tank.toml", text)
    page.view.wait_for_url(re.compile(r"\?job=my-tank-2"))
    page.settle()
    unfold(page, "begin")
    assert page.view.locator('#leaf-begin a[href="/?job=my-tank"]').count() == 1


@pytest.mark.parametrize("name", ["nowhere", "../../etc/passwd", "example:../secret.toml", "a/b", "..", "<b>"])
def test_a_job_that_was_never_begun_is_not_opened(cabin: Server, name: str) -> None:
    answer = httpx.get(cabin.address, params={"job": name})
    assert answer.status_code == 404
    assert "was begun here" in answer.text
    posted = httpx.post(f"{cabin.address}draft", json={"job": name})
    assert posted.status_code == 404


def test_a_way_out_that_is_another_answer_has_a_button_that_gives_it(cabin: Server, opened: Opened) -> None:
    page = opened(cabin)
    unfold(page, "begin")
    for key, value in (("low", "3 ft"), ("flood", "1 ft"), ("pump.height", "28 ft")):
        page.view.fill(f'#questions [data-answer="{key}"]', value)
    page.view.wait_for_selector("#verdict .fails")
    assert page.view.locator("#verdict li").count() > page.view.locator("#verdict li button").count() == 1
    page.view.click("#verdict li [data-answers]")
    page.view.wait_for_selector("#verdict :is(.holds, .unknown)")
    assert page.view.input_value('#questions [data-answer="pump.height"]') != "28 ft"
    assert "No go" not in page.text("verdict")


def test_a_way_out_that_is_a_change_of_the_draft_has_a_button_that_puts_it_there(
    own_server: Server, opened: Opened
) -> None:
    own_server.start()
    page = opened(own_server)
    page.view.click('#part [data-part="pump"]')
    page.settle()
    page.set("pump.height", "30 ft")
    page.settle()
    assert "No suction pump will do this from" in page.text("head")
    page.view.click("#head [data-take]")
    page.settle()
    assert "No suction pump" not in page.text("head")
    page.view.click("[data-step=undo]")
    page.settle()
    assert "No suction pump will do this from" in page.text("head")
