"""What is folded beneath the section: made on asking, pale once the draft has changed, anew on a pause."""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Callable

import httpx
import pytest

from tests.web.conftest import Server, Watched, unfold

pytestmark = pytest.mark.serial
Opened = Callable[..., Watched]


def leaf(page: Watched, name: str) -> str:
    """What is read in a leaf."""
    return " ".join(page.view.inner_text(f"#leaf-{name} .body").split())


def test_parts_and_price_agree_with_the_first_line(cabin: Server, opened: Opened) -> None:
    page = opened(cabin)
    unfold(page, "money")
    total = page.view.inner_text("#leaf-money tr:has(th:text-is('Total')) td")
    dollars = round(float(total.replace("$", "").replace(",", "")))
    assert f"${dollars:,}" in page.text("head")
    rows = page.view.locator("#leaf-money .bill tbody tr:not(.station)")
    cents = [
        round(100 * float(said.strip("$").replace(",", "")))
        for said in rows.locator("td:nth-of-type(3)").all_inner_texts()
        if said.startswith("$")
    ]
    foot = page.view.inner_text("#leaf-money .bill tfoot td:nth-of-type(3)")
    assert sum(cents) == round(100 * float(foot.strip("$").replace(",", "")))
    for level in ("counter (the one quoted)", "trade", "web"):
        assert level in leaf(page, "money")


def test_what_is_old_is_pale_and_says_so_and_is_made_anew_on_a_pause(cabin: Server, opened: Opened) -> None:
    page = opened(cabin)
    unfold(page, "money")
    unfold(page, "paper")
    page.set("stand.riser", "20 in")
    page.settle()
    assert page.view.locator("#leaf-money .body.old").count() == 1
    assert "has changed since" in page.view.inner_text("#leaf-money .age")
    # What says nothing of the draft is as new as it was.
    assert page.view.locator("#leaf-paper .body.old").count() == 0
    page.view.wait_for_selector("#leaf-money .body:not(.old)")
    assert page.view.inner_text("#leaf-money .age") == ""
    # One that is not made anew by itself waits to be asked.
    unfold(page, "beside")
    page.set("stand.riser", "21 in")
    page.settle()
    page.view.wait_for_timeout(2500)
    assert page.view.locator("#leaf-beside .body.old").count() == 1
    page.view.click("#leaf-beside [data-again]")
    page.view.wait_for_selector("#leaf-beside .body:not(.old)")


def test_an_edit_asks_for_no_leaf_that_is_folded(cabin: Server, opened: Opened) -> None:
    page = opened(cabin)
    unfold(page, "money")
    page.view.click("#leaf-money > summary")
    asked: list[str] = []
    page.view.on("request", lambda request: asked.append(request.url.removeprefix(cabin.address)))
    page.set("stand.riser", "20 in")
    page.settle()
    page.view.wait_for_timeout(2000)
    assert set(asked) == {"draft"}


def test_the_stand_is_seen_larger_from_the_drawing(cabin: Server, opened: Opened) -> None:
    page = opened(cabin)
    page.view.click(".hint [data-unfold=bench]")
    page.view.wait_for_selector("#leaf-bench svg.drawn")
    assert "Intake stand, upright" in page.view.locator("#leaf-bench svg").text_content()


def test_the_curves_of_pump_and_system_are_drawn(cabin: Server, opened: Opened) -> None:
    page = opened(cabin)
    unfold(page, "curves")
    assert page.view.locator("#leaf-curves svg.drawn").count() == 2


def test_places_and_plan_are_drawn_and_a_wait_can_be_stopped(cabin: Server, opened: Opened) -> None:
    page = opened(cabin)
    page.view.click("#leaf-sure > summary")
    page.view.click("#leaf-sure [data-stop]")
    page.view.wait_for_selector("#leaf-sure [data-again]")
    assert "Stopped" in page.view.inner_text("#leaf-sure .age")
    unfold(page, "spots")
    drawn = page.view.locator("#leaf-spots svg.drawn")
    assert drawn.count() == 2
    assert "Why there" in drawn.first.text_content()
    page.view.click("#head [data-unfold=sure]")
    page.view.wait_for_selector("#leaf-sure h3", timeout=60_000)
    assert re.search(r"\d+ of 100 hold", leaf(page, "sure"))
    assert "What to measure first" in leaf(page, "sure")


def test_readings_and_symptoms_say_what_is_likely_wrong(cabin: Server, opened: Opened) -> None:
    page = opened(cabin)
    unfold(page, "visits")
    assert "Nothing is said yet" in leaf(page, "visits")
    page.view.fill('[data-key="readings.1.suction_running"]', "20 inHg vacuum")
    page.view.fill('[data-key="readings.1.flow"]', "4 gpm")
    page.settle()
    page.view.check('[data-list="readings.1.does"][value="weaker than it was"]')
    page.settle()
    page.view.wait_for_selector("#leaf-visits .suspects li", timeout=20_000)
    assert 'suction_running = "20 inHg vacuum"' in page.draft()
    assert "weaker than it was" in page.draft()
    page.view.wait_for_selector("#leaf-visits .off")
    # What was typed stands there still, and once more when it is unfolded anew.
    assert page.view.input_value('[data-key="readings.1.flow"]') == "4 gpm"
    page.view.reload()
    page.settle()
    unfold(page, "visits")
    assert page.view.input_value('[data-key="readings.1.flow"]') == "4 gpm"
    assert page.view.is_checked('[data-list="readings.1.does"][value="weaker than it was"]')
    page.view.click("[data-visit]")
    page.settle()
    assert page.draft().count("[[readings]]") == 2


def test_two_designs_lie_side_by_side_and_one_is_taken(cabin: Server, opened: Opened) -> None:
    page = opened(cabin)
    page.view.click('#part [data-part="tank"]')
    page.settle()
    page.view.click('#part [data-open="delivery.tank"]')
    page.settle()
    page.view.click("#search")
    page.view.wait_for_selector("#choices .shortlist")
    page.view.click("#choices [data-lay] >> nth=1")
    page.view.wait_for_selector("#leaf-beside .beside")
    page.view.select_option("[data-side=one]", "0")
    page.view.wait_for_selector("#leaf-beside tfoot td:nth-of-type(1) [data-take]")
    heads = page.view.locator("#leaf-beside tr:has(th:text-is('tank')) td").all_inner_texts()
    assert len(heads) == 2
    assert heads[0] != heads[1]
    page.view.click("#leaf-beside tfoot td:nth-of-type(2) [data-take]")
    page.settle()
    tank = re.search(r"\w+ tank, \d+ gal", heads[1].replace("\u00a0", " "))
    assert tank is not None, heads
    assert f'"{tank[0]}"' in page.draft()
    assert "Taken into the draft" in page.text("progress")


def test_the_packet_is_of_the_draft_and_the_same_each_time(cabin: Server, opened: Opened) -> None:
    page = opened(cabin)
    page.set("stand.riser", "20 in")
    page.settle()
    unfold(page, "paper")
    with page.view.expect_download() as waited:
        page.view.click('#leaf-paper a[href^="/paper/site.pdf"]')
    assert waited.value.suggested_filename == "year_round_cabin-site.pdf"
    with open(waited.value.path(), "rb") as taken:
        assert taken.read(5) == b"%PDF-"
    packs = [httpx.get(f"{cabin.address}paper/packet.zip", timeout=60.0) for _ in range(2)]
    assert packs[0].content == packs[1].content
    with zipfile.ZipFile(io.BytesIO(packs[0].content)) as pack:
        names = pack.namelist()
        assert {"year_round_cabin-site.pdf", "year_round_cabin-bench.pdf", "year_round_cabin-chart.pdf"} <= set(names)
        assert all(pack.read(name)[:5] == b"%PDF-" for name in names if name.endswith(".pdf"))
    assert httpx.get(f"{cabin.address}paper/secret.pdf").status_code == 404


def test_the_waters_beside_the_job_are_listed_with_what_they_lack(cabin: Server, opened: Opened) -> None:
    page = opened(cabin)
    unfold(page, "waters")
    assert page.view.locator("#leaf-waters .cards li").count() >= 1
    assert "still lacks" in leaf(page, "waters").lower()


SHEET = """name,like,counter_cents
our own tank,"diaphragm tank, 62 gal",39900
no such tank,"diaphragm tank, 61 gallons",39900
dear tank,"diaphragm tank, 62 gal",many
"""


def test_a_sheet_of_parts_is_read_row_by_row_and_each_bad_row_named(cabin: Server, opened: Opened) -> None:
    page = opened(cabin)
    unfold(page, "own")
    page.view.set_input_files(
        "#own-file", {"name": "ours.csv", "mimeType": "text/csv", "buffer": SHEET.encode("utf-8")}
    )
    page.view.wait_for_selector("#leaf-own .bad")
    said = leaf(page, "own")
    assert "1 part taken, 2 rows or columns not" in said
    assert "our own tank" in said
    assert "$399.00" in said
    lines = page.view.locator("#leaf-own .bad").first.locator("tbody th").all_inner_texts()
    assert lines == ["3", "4"]


def test_a_draft_that_cannot_be_judged_says_so_in_every_leaf(cabin: Server, opened: Opened) -> None:
    page = opened(cabin)
    page.set("stand.riser", "20 parsecs")
    page.settle()
    for name in ("money", "bench", "visits"):
        unfold(page, name)
        assert "Not while the draft cannot be judged" in leaf(page, name)


def test_a_job_where_no_suction_pump_will_do_says_the_ways_out(cabin: Server) -> None:
    job = {"job": "example:no_suction_pump.toml"}
    html = httpx.post(f"{cabin.address}leaf/money", json=job, timeout=30.0).text
    assert "What cannot work has no price" in html
    for name in ("bench", "visits", "beside", "spots", "sure"):
        said = httpx.post(f"{cabin.address}leaf/{name}", json=job, timeout=60.0)
        assert said.status_code == 200
        assert "could not be made" not in said.text, name
