"""Lists of the job on the page: a step of the treatment added, edited, put in order and taken away, and taken back."""

from __future__ import annotations

import tomllib
from collections.abc import Callable

import httpx
import pytest

from tests.web.conftest import Server, Watched

pytestmark = pytest.mark.serial
Opened = Callable[..., Watched]


def steps(page: Watched) -> list[str]:
    """What the draft says of each step."""
    found = tomllib.loads(page.draft()).get("treatment", {}).get("steps", [])
    return [row.get("what", "") for row in found]


def made(page: Watched) -> None:
    """Wait until the list is of the draft as it stands."""
    page.settle()
    page.view.wait_for_selector("#leaf-rows:not([aria-busy]) .rows")


def test_steps_of_the_treatment_are_added_ordered_and_taken_away_and_that_is_undone(
    cabin: Server, opened: Opened
) -> None:
    page = opened(cabin)
    before = steps(page)
    assert len(before) >= 2
    page.view.click('#part [data-part="treatment"]')
    page.settle()
    page.view.click('#part [data-rows="treatment.steps"]')
    made(page)
    page.view.click('#leaf-rows [data-way="add"]')
    made(page)
    last = f"treatment.steps.{len(before) + 1}"
    page.view.wait_for_selector(f'#leaf-rows [data-key="{last}.what"]')
    page.view.select_option(f'#leaf-rows [data-key="{last}.what"]', "softener")
    page.settle()
    assert steps(page) == [*before, "softener"]
    page.view.fill(f'#leaf-rows [data-key="{last}.flow"]', "9 gpm")
    page.settle()
    assert '"9 gpm"' in page.draft()
    page.view.locator("#leaf-rows [data-way=add]").or_(page.view.locator("#rows-list")).first.focus()
    # The list is made anew on a pause, and the new row can then be moved.
    page.view.wait_for_selector(f'#leaf-rows [data-row="{last}"][data-way="earlier"]')
    page.view.click(f'#leaf-rows [data-row="{last}"][data-way="earlier"]')
    made(page)
    assert steps(page) == [*before[:-1], "softener", before[-1]]
    page.view.click('#leaf-rows [data-row="treatment.steps.1"][data-way="out"]')
    made(page)
    assert steps(page) == [*before[1:-1], "softener", before[-1]]
    for wanted in ([*before[:-1], "softener", before[-1]], [*before, "softener"]):
        page.view.click("[data-step=undo]")
        page.settle()
        assert steps(page) == wanted


def test_any_list_can_be_chosen_and_a_visit_is_ticked(cabin: Server, opened: Opened) -> None:
    page = opened(cabin)
    page.view.click("#leaf-rows > summary")
    made(page)
    page.view.select_option("#rows-list", "readings")
    page.view.wait_for_selector('#leaf-rows [data-key="readings.1.date"]')
    page.view.check('#leaf-rows [data-list="readings.1.does"] >> nth=0')
    page.settle()
    assert tomllib.loads(page.draft())["readings"][0]["does"]


@pytest.mark.parametrize("step", ["later treatment.steps.99", "earlier job.title", "later", 'earlier "'])
def test_a_row_that_is_not_there_is_told_and_nothing_moves(cabin: Server, step: str) -> None:
    before = httpx.post(f"{cabin.address}draft", json={"step": "restart"}).json()
    after = httpx.post(f"{cabin.address}draft", json={"step": step}).json()
    assert after["trouble"]
    assert after["text"] == before["text"]
    assert httpx.post(f"{cabin.address}leaf/rows", json={"list": "nowhere"}).status_code == 200
