"""The pick and its shortlist: priced by their bills, asked every check, and what a little more money buys."""

from __future__ import annotations

from itertools import product
from pathlib import Path

import numpy as np
import pytest

from lakewright.api.check import check
from lakewright.api.design import Choice, design, write_pick
from lakewright.checks.registry import CHECKS
from lakewright.job.read import read_job_text
from lakewright.job.write import set_values
from lakewright.search.choose import DEAR, choose
from lakewright.search.circuits import solve
from lakewright.search.offers import Offer, front, hangs_on_a_choice, judged, margin_of, ranked, said_by
from lakewright.search.option import said
from lakewright.search.options import problem_of
from lakewright.state.assemble import facts_of
from lakewright.state.bother import bother_of, bother_rows
from lakewright.state.labour import HOUR
from lakewright.state.priced import priced
from lakewright.stock.load import load_stock
from tests.search.problems import EXAMPLE

pytestmark = pytest.mark.law

LOW = {"pump.distance": "15 ft", "pump.height": "4.5 ft", "delivery.length": "175 ft"}
"""The pump on a bench by the water."""


def written(folder: Path, changes: dict[str, str]) -> Path:
    file = folder / "job.toml"
    file.write_text(set_values(EXAMPLE.read_text(encoding="utf-8"), changes), encoding="utf-8")
    return file


def offer(price: int, margin: float, bother: float = 0.0, option: int = 0) -> Offer:
    job, stock = read_job_text(EXAMPLE.read_text(encoding="utf-8")), load_stock()
    return Offer((option,), job, stock, price, False, (), bother, margin, 0.0)


def test_of_offers_those_stay_that_no_other_beats() -> None:
    cheap, easy, calm = offer(100, 0.2, 5.0), offer(200, 0.9, 5.0), offer(150, 0.1, 1.0)
    beaten, dearer = offer(210, 0.9, 5.0), offer(160, 0.2, 5.0)
    twin = offer(100, 0.2, 5.0, option=1)
    assert front([cheap, easy, calm, beaten, dearer, twin]) == [cheap, easy, calm, twin]
    # Margin past comfort buys nothing.
    assert front([offer(100, 1.0), far := offer(120, 9.0)])[-1:] != [far]
    assert [each.option for each in ranked([twin, cheap])] == [(0,), (1,)]


def test_bother_is_work_and_weight_by_its_table() -> None:
    job, stock = read_job_text(EXAMPLE.read_text(encoding="utf-8")), load_stock()
    built = facts_of(job, stock)
    cost, rows = priced(job, stock, built), bother_rows()
    found = bother_of(job, built, cost.bill)
    # ours: 1 h an hour, half a minute a kg, ten minutes a kg of what is hauled out each year.
    assert (rows["work"], rows["carry"], rows["haul"]) == (HOUR, 30.0, 600.0)
    work = found - 30.0 * cost.bill.mass
    assert work / HOUR == pytest.approx(round(work / HOUR * 2.0) / 2.0, abs=1e-9)  # whole half hours
    hauled = said(job, {"need.season": "hauled"})
    more = bother_of(hauled, built, cost.bill) - bother_of(said(job, {"need.season": "drained"}), built, cost.bill)
    assert more == pytest.approx(600.0 * cost.bill.mass_in_water)


def test_the_pick_is_the_cheapest_of_which_every_must_holds() -> None:
    """Against every design one by one. Near the shore the waves would move the stand; a little farther out they hardly
    do not, and a dearer pump place has its cheapest design where they surely do not.
    """
    text = EXAMPLE.with_name("year_round_cabin_open.toml").read_text(encoding="utf-8")
    job, stock = read_job_text(text), load_stock()
    whole = problem_of(job, stock, facts_of(job, stock))
    kept = {
        "line": ["polyethylene, SIDR 11.5, 1-1/2 in", "HDPE, DR 13.5, 2 in"],
        "pump": ["centrifugal, two-stage, 3/4 hp"],
        "tank": ["diaphragm tank, 62 gal"],
    }
    few = {name: np.array([whole.part(name).labels.index(each) for each in some]) for name, some in kept.items()}
    problem = whole.take(**few, spot=slice(None, None, 2), pump_place=slice(0, 2))
    chosen = choose(problem, solve(problem), job, stock)
    holding, tight = [], 0
    for option in product(*(range(size) for size in problem.sizes)):
        alone = said(job, said_by(problem, option))
        total = priced(alone, stock, facts_of(alone, stock)).quote.total
        one = judged(Offer(option, alone, stock, total, False, (), 0.0, 9.0, 0.0), problem.call_back)
        if not one.against and one.margin >= 1.0:
            holding.append((total, option))
        dear = [margin_of(one, check) for check in DEAR]
        tight += all(check.reach == "picked" for check in one.against) and min(dear) < 1.0
    assert tight
    pick = chosen.shortlist[0]
    assert (pick.price, pick.option) == min(holding)
    assert "stand_does_not_slide" in chosen.turned_down
    assert not pick.against


# By what they need: whoever chooses moves the first with the spot, the line or the pump, and never the second.
CHOSEN = ("suction_stays_liquid", "lift_is_within_practice", "stand_does_not_slide", "delivers_the_need")
AS_IT_IS = ("authority_lets_it_be_drunk", "supply_is_a_private_one", "no_bloom_is_known_here")


def test_what_a_choice_moves_ranks_designs_and_what_it_does_not_never() -> None:
    checks = {each.name: each for each in CHECKS}
    assert [name for name in (*CHOSEN, *AS_IT_IS) if hangs_on_a_choice(checks[name])] == list(CHOSEN)


@pytest.fixture(scope="module")
def choice(tmp_path_factory: pytest.TempPathFactory) -> Choice:
    """Pump, tank and line of the example left open, all else named."""
    folder = tmp_path_factory.mktemp("choice")
    opened = {**LOW, "stand.at": "101 ft", "pump.stock": "open", "delivery.tank": "open", "suction.stock": "open"}
    return design(written(folder, opened))


def test_a_shortlist_is_priced_by_its_bills(choice: Choice, tmp_path: Path) -> None:
    pick = choice.pick
    assert pick is not None
    assert pick.priced is not None
    assert choice.shortlist[0].price == pick.priced.quote.total
    file = tmp_path / "made.toml"
    write_pick(choice, file)
    again = check(file)
    assert again.priced is not None
    assert again.priced.quote.total == choice.shortlist[0].price
    ranking = {each.name for each in CHECKS if each.force == "must" and hangs_on_a_choice(each)}
    musts = [f.margin for f in again.findings if f.name in ranking and f.margin is not None]
    assert min(musts) == pytest.approx(choice.shortlist[0].margin, abs=1e-4)


def test_what_the_comfort_costs_is_the_difference_of_two_bills(choice: Choice) -> None:
    step, pick = choice.bought, choice.shortlist[0]
    assert step is not None
    assert pick.margin >= 1.0
    cheapest = min((row for row in choice.shortlist if row.margin < 1.0), key=lambda row: row.price)
    assert step.price == pick.price - cheapest.price > 0
    assert (step.margin, step.check) == (cheapest.margin, cheapest.least)
    mine, its = dict(pick.parts), dict(cheapest.parts)
    assert step.changes == tuple((name, its[name], mine[name]) for name in mine if mine[name] != its[name])
    assert choice.buys is None


def test_where_nothing_passes_the_change_that_saves_it_does(tmp_path: Path) -> None:
    """A pump too small, and the tank left open: another pump saves it, and the price is that of the change."""
    changes = {**LOW, "stand.at": "101 ft", "pump.stock": "centrifugal, two-stage, 1/2 hp", "delivery.height": "32 ft"}
    file = written(tmp_path, {**changes, "delivery.tank": "open"})
    choice = design(file)
    assert choice.passing == 0
    assert choice.saving is not None
    saving, miss = choice.saving, choice.near_misses[0]
    assert saving.check.name == miss.stands_against == "reaches_cut_out"
    finding = next(f for f in choice.pick.findings if f.name == "reaches_cut_out") if choice.pick else None
    assert finding is not None
    assert finding.value is not None
    assert finding.limit is not None
    assert saving.lacks == pytest.approx(finding.limit - finding.value)
    assert saving.changes[0][:2] == ("pump", "centrifugal, two-stage, 1/2 hp")
    made, mended = tmp_path / "miss.toml", tmp_path / "mended.toml"
    write_pick(choice, made)
    fields = {"pump": "pump.stock", "tank": "delivery.tank"}
    words = {fields[part]: after for part, _, after in saving.changes}
    mended.write_text(set_values(made.read_text(encoding="utf-8"), words), encoding="utf-8")
    before, after = check(made), check(mended)
    assert [f.name for f in before.findings if f.status == "fails" and f.force == "must"] == ["reaches_cut_out"]
    assert not [f.name for f in after.findings if f.status in ("fails", "unknown") and f.force == "must"]
    assert before.priced is not None
    assert after.priced is not None
    assert after.priced.quote.total - before.priced.quote.total == saving.price


def test_checks_asked_of_few_are_known_by_name() -> None:
    dear = {check.name for check in CHECKS if check.reach == "picked" and check.force == "must"}
    assert "stand_does_not_slide" in dear
