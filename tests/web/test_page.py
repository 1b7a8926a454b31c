"""The page in a real browser: looked at, edited and dragged, by mouse, finger and keyboard."""

from __future__ import annotations

import datetime
import json
import re
from collections.abc import Callable
from typing import Any

import pytest

from tests.web.conftest import Server, Watched

pytestmark = pytest.mark.serial
Opened = Callable[..., Watched]

LOWEST = "late September, lowest water"


def middle(view: Any, choose: str) -> tuple[float, float]:
    """The middle of a thing on the screen."""
    box = view.locator(choose).bounding_box()
    return box["x"] + 0.5 * box["width"], box["y"] + 0.5 * box["height"]


def test_the_page_says_how_it_stands_and_flies_what_decides_it(cabin: Server, opened: Opened) -> None:
    page = opened(cabin)
    assert page.view.inner_text("h1") == "Heron Point cabin"
    assert "on the worst day" in page.text("head")
    assert page.view.locator("#drawing g.flag").count() >= 5
    assert "cut-out" in page.view.locator("#drawing g.flag").first.text_content()
    first = page.view.inner_text("#decides li:first-child")
    assert "tight" in first
    assert "reaches cut out" in first
    assert "Electricity" in page.text("foot")


def test_an_edit_changes_finding_drawing_and_draft_and_leaves_the_file_alone(cabin: Server, opened: Opened) -> None:
    before = cabin.file.read_text(encoding="utf-8")
    page = opened(cabin)
    drawn = page.view.inner_html("#drawing")
    page.set("stand.riser", "4 in")
    page.settle()
    assert re.search(r"fails\s+inlet stands clear of the bed", page.view.inner_text("#decides li:first-child"))
    assert page.view.locator('#drawing g.flag[data-check="inlet_stands_clear_of_the_bed"]').count() == 1
    assert page.view.inner_html("#drawing") != drawn
    assert '"4 in"' in page.draft()
    assert cabin.file.read_text(encoding="utf-8") == before


def test_clicking_a_part_or_its_flag_takes_it_in_hand(cabin: Server, opened: Opened) -> None:
    page = opened(cabin)
    page.view.click('#drawing .grip[data-part="pump"]')
    page.settle()
    assert page.view.inner_text("#part h2") == "The pump"
    page.view.click('#drawing g.flag[data-check="reaches_cut_out"] text >> nth=0')
    page.settle()
    assert page.view.inner_text("#part h2") == "Tank and switch"
    assert "Sources" in page.text("working")


def test_working_and_sources_are_shown_on_asking_and_put_away(cabin: Server, opened: Opened) -> None:
    page = opened(cabin)
    row = page.view.locator('#decides [data-finding="suction_stays_liquid"]')
    if not row.is_visible():
        page.view.click("#rest summary")
    row.click()
    page.settle()
    assert row.get_attribute("aria-expanded") == "true"
    assert "Hydraulic Institute" in page.text("working") or "NPSH" in page.text("working")
    row.click()
    page.settle()
    assert page.view.locator("#working").count() == 0
    # What was unfolded stays so.
    assert row.is_visible()


def test_the_water_is_dragged_from_day_to_day(cabin: Server, opened: Opened) -> None:
    page = opened(cabin)
    x, y = middle(page.view, "#drawing .surface .knob")
    page.view.mouse.move(x, y)
    page.view.mouse.down()
    for step in range(1, 9):
        page.view.mouse.move(x, y + 5.0 * step)
    page.view.mouse.up()
    page.settle()
    assert LOWEST in page.text("head")
    assert f"on {LOWEST}" in page.view.inner_text("#decides h2")
    page.view.click("#head [data-day]")
    page.settle()
    assert "all days" in page.text("head")


def test_the_keyboard_alone_reaches_everything_in_order_and_shows_where_it_is(cabin: Server, opened: Opened) -> None:
    page = opened(cabin)
    view = page.view
    reached = []
    for _ in range(80):
        view.keyboard.press("Tab")
        name, is_seen = view.evaluate(
            """() => { const on = document.activeElement, look = getComputedStyle(on);
            const knob = on.querySelector && on.querySelector(".knob, path.flag");
            const shown = look.outlineStyle !== "none" || parseFloat(look.strokeWidth) >= 0.9
              || Boolean(knob) && parseFloat(getComputedStyle(knob).strokeWidth) >= 1;
            const kind = on.closest("svg.section") ? on.classList[0] : on.closest("#part") ? "part"
              : on.closest("#keep") ? "keep" : on.closest("#head") ? "head" : on.closest(".hint") ? "hint"
              : on.closest(".leaf") ? "leaf" : on.closest("#foot, .text") ? "foot"
              : on.closest("#decides") ? "finding" : on.id || on.tagName;
            return [kind, shown]; }"""
        )
        assert is_seen, f"nothing shows that the keyboard is at {name}"
        if not reached or reached[-1] != name:
            reached.append(name)
        if name == "foot":
            break
    assert reached == ["head", "keep", "surface", "grip", "flag", "hint", "finding", "part", "search", "leaf", "foot"]


def test_the_keyboard_alone_moves_the_water_and_edits_a_part(cabin: Server, opened: Opened) -> None:
    page = opened(cabin)
    view = page.view
    view.focus("#drawing .surface")
    view.keyboard.press("ArrowUp")
    page.settle()
    assert LOWEST in page.text("head")
    assert view.evaluate("document.activeElement.matches('.surface')")
    view.keyboard.press("Escape")
    page.settle()
    assert "all days" in page.text("head")
    view.focus('#drawing .grip[data-part="pump"]')
    view.keyboard.press("Enter")
    page.settle()
    assert view.evaluate("document.activeElement.dataset.key") == "pump.stock"
    view.keyboard.press("Tab")
    view.keyboard.press("Tab")
    assert view.evaluate("document.activeElement.dataset.key") == "pump.distance"
    view.keyboard.press("Control+a")
    view.keyboard.type("31 ft", delay=30)
    page.settle()
    assert '"31 ft"' in page.draft()
    assert view.evaluate("document.activeElement.value") == "31 ft"
    view.keyboard.press("Escape")
    assert view.evaluate("document.activeElement.dataset.part") == "pump"


def test_a_finger_takes_a_part_and_drags_the_water(cabin: Server, opened: Opened) -> None:
    page = opened(cabin, 900, 1000, has_touch=True)
    page.view.tap('#drawing .grip[data-part="pump"]')
    page.settle()
    assert page.view.inner_text("#part h2") == "The pump"
    page.view.evaluate("scrollTo(0, 0)")
    x, y = middle(page.view, "#drawing .surface .knob")
    finger = page.view.context.new_cdp_session(page.view)
    for kind, down in (("touchStart", 0.0), ("touchMove", 8.0), ("touchMove", 20.0), ("touchMove", 40.0)):
        finger.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": [{"x": x, "y": y + down}]})
        page.view.wait_for_timeout(30)
    finger.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    page.settle()
    assert LOWEST in page.text("head")


def test_two_quick_edits_both_stand(cabin: Server, opened: Opened) -> None:
    page = opened(cabin)
    # In one breath, and with an answer under way.
    for key, value in (("stand.riser", "20 in"), ("stand.at", "165 ft"), ("site.bed.soft", "4 in")):
        page.set(key, value)
        page.view.wait_for_timeout(25)
    page.settle()
    for value in ('"20 in"', '"165 ft"', '"4 in"'):
        assert value in page.draft()


def test_what_is_typed_outlives_the_server(own_server: Server, opened: Opened) -> None:
    own_server.start()
    page = opened(own_server)
    page.set("stand.riser", "20 in")
    page.settle()
    own_server.stop()
    page.set("stand.at", "165 ft")
    page.view.wait_for_selector("#silent:not(:empty)")
    assert "What you typed is kept here" in page.text("silent")
    page.view.wait_for_selector("#drawing.old")
    page.set("site.bed.soft", "4 in")
    own_server.start()
    page.settle()
    assert page.text("silent") == ""
    for value in ('"20 in"', '"165 ft"', '"4 in"'):
        assert value in page.draft()
    assert page.view.input_value('[data-key="stand.at"]') == "165 ft"
    # The browser itself reports each post that met nobody.
    assert page.wrong
    assert all("ERR_CONNECTION" in said or "ERR_EMPTY" in said or "ERR_SOCKET" in said for said in page.wrong)
    page.wrong.clear()


def test_a_mistake_is_told_and_the_drawing_stays_pale_until_it_is_mended(cabin: Server, opened: Opened) -> None:
    page = opened(cabin)
    page.set("stand.riser", "20 parsecs")
    page.settle()
    assert "20 parsecs" in page.text("trouble")
    assert "cannot be judged" in page.text("trouble")
    assert page.view.locator("#drawing svg").count() == 1
    page.set("stand.riser", "20 in")
    page.settle()
    assert page.text("trouble") == ""


HOSTILE = "<img src=x onerror=alert(1)><script>alert(2)</script>"


def test_hostile_text_is_only_text(own_server: Server, opened: Opened) -> None:
    text = own_server.file.read_text(encoding="utf-8")
    title = next(line for line in text.splitlines() if line.startswith("title"))
    text = text.replace(title, f'title = "{HOSTILE}</textarea>"').replace("July weekend", f"July {HOSTILE}")
    own_server.file.write_text(text, encoding="utf-8")
    own_server.start()
    page = opened(own_server)
    assert HOSTILE in page.view.inner_text("h1")
    assert page.draft() == text
    page.view.click('#part [data-part="pump"]')
    page.settle()
    page.view.evaluate(
        """words => { const field = document.querySelector('[data-key="pump.stock"]');
        field.add(new Option(words)); field.value = words;
        field.dispatchEvent(new Event("input", { bubbles: true })); }""",
        HOSTILE,
    )
    page.settle()
    assert HOSTILE in page.text("trouble")
    assert page.view.locator("img, main script").count() == 0


def test_a_phone_moves_the_drawing_sideways_and_nothing_else(cabin: Server, opened: Opened) -> None:
    page = opened(cabin, 390, 844, has_touch=True, is_mobile=True)
    wide, shown = page.view.evaluate("[document.documentElement.scrollWidth, document.documentElement.clientWidth]")
    assert wide <= shown
    drawn, framed = page.view.evaluate("[drawing.scrollWidth, drawing.clientWidth]")
    assert drawn > framed
    # Type of 7 points at 4 pixels a millimetre.
    assert page.view.evaluate("drawing.querySelector('svg text').getBoundingClientRect().height") >= 10.0
    page.view.tap('#part [data-part="pump"]')
    page.settle()
    left, width = page.view.evaluate(
        """(() => { const box = document.querySelector('.grip[data-part="pump"]').getBoundingClientRect();
        return [box.left, innerWidth]; })()"""
    )
    assert 0.0 < left < width


def test_what_else_would_hold_is_said_on_asking_and_grows_old_with_the_draft(cabin: Server, opened: Opened) -> None:
    page = opened(cabin)
    assert page.text("choices") == ""
    page.view.click("#search")
    page.view.wait_for_selector("#choices .openings")
    assert "Nothing is left open" in page.text("choices")
    page.view.click('#choices [data-open="delivery.tank"]')
    page.settle()
    assert page.view.input_value('[data-key="delivery.tank"]') == "open"
    page.view.click("#search")
    page.view.wait_for_selector("#choices .shortlist")
    found = page.text("choices")
    assert re.search(r"10 choices, 1 different circuits, \d+\.\d s", found)
    assert re.search(r"\$[\d,]+\.\d\d with", found)
    assert "diaphragm tank" in found
    assert "What stood in the way" in found
    page.view.click('#part [data-open="delivery.tank"]')
    page.settle()
    assert "changed since this was found" in page.text("progress")
    assert page.view.locator("#choices.old").count() == 1
    # What was there before it was left open is there again.
    assert page.view.input_value('[data-key="delivery.tank"]').startswith("diaphragm tank")


def test_an_edit_is_on_todays_word_and_one_may_say_on_whose(cabin: Server, opened: Opened) -> None:
    page = opened(cabin)
    today = datetime.date.today().isoformat()
    assert 'at    = { value = "170 ft", measured = 2026-05-03 }' in page.draft()
    page.set("stand.at", "165 ft")
    page.settle()
    assert f'at    = {{ value = "165 ft", told = {today} }}' in page.draft()
    page.view.focus('[data-standing="stand.at"]')
    page.view.select_option('[data-standing="stand.at"]', "measured")
    page.settle()
    assert f'at    = {{ value = "165 ft", measured = {today} }}' in page.draft()
    assert page.view.evaluate("document.activeElement.dataset.standing") == "stand.at"


def test_a_value_may_lie_between_two(cabin: Server, opened: Opened) -> None:
    page = opened(cabin)
    page.view.select_option('[data-standing="stand.at"]', "between")
    page.settle()
    assert page.view.evaluate("document.activeElement.dataset.end") == "high"
    assert "170 ft" in page.draft()
    page.view.keyboard.type("180 ft", delay=20)
    page.settle()
    assert 'value = "170 ft..180 ft", told' in page.draft()
    page.view.select_option('[data-standing="stand.at"]', "assumed")
    page.settle()
    assert 'value = "170 ft..180 ft", assumed' in page.draft()
    assert page.view.input_value('[data-key="stand.at"][data-end="low"]') == "170 ft"


def test_a_design_of_the_shortlist_is_taken_into_the_draft_and_not_to_the_disk(cabin: Server, opened: Opened) -> None:
    before = cabin.file.read_text(encoding="utf-8")
    page = opened(cabin)
    for part, key in (("pump", "pump.stock"), ("delivery line", "delivery.stock"), ("tank", "delivery.tank")):
        page.view.click(f'#part [data-part="{part}"]')
        page.settle()
        page.view.click(f'#part [data-open="{key}"]')
        page.settle()
    page.view.click("#search")
    page.view.wait_for_selector("#choices .shortlist")
    offered = page.view.locator("#choices [data-take]")
    assert offered.count() >= 2
    first, second = (json.loads(offered.nth(n).get_attribute("data-take")) for n in (0, 1))
    assert first != second
    offered.nth(1).click()
    page.settle()
    assert f'"{second["delivery.stock"]}"' in page.draft()
    assert page.view.input_value('[data-key="delivery.tank"]') == second["delivery.tank"]
    assert "Taken into the draft" in page.text("progress")
    assert cabin.file.read_text(encoding="utf-8") == before
    # Another may be taken in its place; once anything else is changed, none.
    offered.nth(0).click()
    page.settle()
    assert page.view.input_value('[data-key="delivery.tank"]') == first["delivery.tank"]
    page.set("delivery.cut_in", "32 psi")
    page.settle()
    assert offered.nth(0).is_disabled()
