"""Who cannot see, or holds no mouse, or has a small screen, is served as well: audited, and tried, view by view."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from lakewright.web.leaves import LEAVES
from tests.web.audit import violations
from tests.web.conftest import Server, Watched, unfold

pytestmark = pytest.mark.serial
Opened = Callable[..., Watched]

QUICK = [leaf.name for leaf in LEAVES if leaf.name not in ("sure", "spots")]


def by_day_and_by_lamplight(page: Watched) -> list[str]:
    """What is wrong on the page as it stands, in either light."""
    found = []
    for scheme in ("light", "dark"):
        page.view.emulate_media(color_scheme=scheme)
        page.view.wait_for_timeout(500)  # what fades from one colour to another has done so
        found += [f"{scheme}: {each}" for each in violations(page.view)]
    return found


@pytest.mark.parametrize("wide", [1440, 390])
def test_no_view_has_a_violation_of_wcag_22_aa(cabin: Server, opened: Opened, wide: int) -> None:
    page = opened(cabin, wide, 900)
    page.view.click("#assumed summary")
    page.view.click("#decides li:first-child button")
    page.settle()
    for name in QUICK:
        unfold(page, name)
    assert by_day_and_by_lamplight(page) == []
    # Mistakes, and what is old.
    page.view.click('#part [data-part="inlet"]')
    page.settle()
    page.set("stand.riser", "20 parsecs")
    page.settle()
    assert by_day_and_by_lamplight(page) == []


def test_the_audit_notices(cabin: Server, opened: Opened) -> None:
    page = opened(cabin)
    page.view.evaluate("document.querySelector('h1').append(document.createElement('input'))")
    page.view.evaluate("document.querySelector('.keep .soft').style.color = '#e0d8c8'")
    found = violations(page.view)
    assert any(each.startswith("label") for each in found)
    assert any(each.startswith("color-contrast") for each in found)


def test_the_slow_views_have_none_either(cabin: Server, opened: Opened) -> None:
    page = opened(cabin)
    for name in ("spots", "sure"):
        unfold(page, name)
    assert violations(page.view) == []


def test_what_was_found_by_a_search_has_none(cabin: Server, opened: Opened) -> None:
    page = opened(cabin)
    page.view.click('#part [data-part="tank"]')
    page.settle()
    page.view.click("#search")
    page.view.wait_for_selector("#choices .openings")
    assert by_day_and_by_lamplight(page) == []
    page.view.click('#part [data-open="delivery.tank"]')
    page.settle()
    page.view.click("#search")
    page.view.wait_for_selector("#choices .shortlist")
    page.view.click("#choices [data-lay] >> nth=0")
    page.view.wait_for_selector("#leaf-beside .beside")
    assert by_day_and_by_lamplight(page) == []


def test_only_what_is_wide_moves_sideways(cabin: Server, opened: Opened) -> None:
    page = opened(cabin)
    for name in QUICK:
        unfold(page, name)
    # The narrowest is what WCAG 2.2, 1.4.10, asks for.
    for wide in (320, 390, 900, 1600):
        page.view.set_viewport_size({"width": wide, "height": 900})
        page.settle()
        needed, there = page.view.evaluate(
            "[document.documentElement.scrollWidth, document.documentElement.clientWidth]"
        )
        assert needed <= there


def test_a_print_leaves_out_what_one_presses(cabin: Server, opened: Opened) -> None:
    page = opened(cabin)
    unfold(page, "money")
    page.view.emulate_media(media="print")

    def printed(what: str) -> int:
        script = "what => [...document.querySelectorAll(what)].filter(each => each.checkVisibility()).length"
        found: int = page.view.evaluate(script, what)
        return found

    # The findings are buttons too, and are what one prints.
    assert printed("button, input, select, textarea") == printed(".decides button")
    assert page.view.is_visible("#drawing svg")
    assert page.view.is_visible("#leaf-money table")


def test_the_keyboard_alone_unfolds_asks_and_takes_a_design(cabin: Server, opened: Opened) -> None:
    page = opened(cabin)
    view = page.view
    view.focus("#leaf-money > summary")
    view.keyboard.press("Enter")
    view.wait_for_selector("#leaf-money .bill")
    view.focus('#part [data-part="tank"]')
    view.keyboard.press("Enter")
    page.settle()
    view.focus('#part [data-open="delivery.tank"]')
    view.keyboard.press("Space")
    page.settle()
    view.focus("#search")
    view.keyboard.press("Enter")
    view.wait_for_selector("#choices .shortlist")
    view.keyboard.press("Tab")
    view.keyboard.press("Enter")
    page.settle()
    assert "Taken into the draft" in page.text("progress")
