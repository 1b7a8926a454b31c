"""The walk to a design that is sure enough, against asking every design that passes by itself."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from lakewright.api.design import searched
from lakewright.api.read import assembled
from lakewright.api.sure import sure_design, write_sure
from lakewright.checks.registry import FLOW_CHECKS
from lakewright.checks.verdict import FAILS
from lakewright.errors import AskError
from lakewright.job.write import set_values
from lakewright.search.offers import as_offers
from lakewright.search.sieve import STAGES, Sieve, most_failing
from lakewright.search.spread import all_passing
from lakewright.search.truths import offs, points_of, statuses
from lakewright.state.assemble import facts_of
from lakewright.state.unknowns import unknowns_of
from lakewright.state.walk import walk_flow
from lakewright.sure_lines import sure_lines

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
EXAMPLE = EXAMPLES / "year_round_cabin.toml"
FEW = 1 << 9


def opened(folder: Path, sure: str, **values: str) -> Path:
    """The example with some of its parts left open, and how sure is enough."""
    text = EXAMPLE.read_text(encoding="utf-8")
    text = set_values(text, {"suction.stock": "open", "delivery.tank": "open", **values})
    file = folder / "opened.toml"
    file.write_text(f'{text}\n[limits.sure_enough]\nvalue = "{sure}"\nreason = "a test"\n', encoding="utf-8")
    return file


def test_a_sieve_drops_what_every_truth_shows_to_fall_short(tmp_path: Path) -> None:
    """Each design by itself, its own facts put together anew, in all truths of the last stage."""
    file = opened(tmp_path, "95 %")
    job, stock, assembly = assembled(file.read_text(encoding="utf-8"), file)
    problem, solved, _ = searched(job, stock, assembly, str(file))
    passing = all_passing(problem, solved, 1 << 10)
    some = passing.take(np.arange(0, len(passing), max(1, len(passing) // 6)))
    unknowns = unknowns_of(assembly)
    off = offs(unknowns, points_of(unknowns, STAGES[-1], seed=0))
    sieve = Sieve(problem, unknowns, off, sure=0.9)
    found = sieve.sieved(some.options)
    musts = [n for n, check in enumerate(FLOW_CHECKS) if check.force == "must"]
    for n, offer in enumerate(as_offers(problem, job, stock, some)):
        facts = facts_of(offer.job, stock, weighted=False).facts
        fails = (statuses(facts, unknowns, off, walk_flow, FLOW_CHECKS)[:, musts] == FAILS).any(axis=1)
        seen = int(found.truths[n])
        if found.stays[n]:
            assert found.share[n] == np.mean(~fails)
            assert fails.sum() <= most_failing(len(off), 0.9)
        else:
            # A circuit that falls short does so with any tank: the tank may only add to it.
            assert found.share[n] >= np.mean(~fails[:seen])
            assert np.mean(~fails) < 0.9
    again = sieve.sieved(some.options[::-1])
    assert (again.stays[::-1] == found.stays).all()


def test_the_design_found_is_the_cheapest_that_is_sure_enough(tmp_path: Path) -> None:
    file = opened(tmp_path, "80 %")
    found = sure_design(file, truths=FEW)
    assert found.found is not None
    assert found.found.job.chance >= 0.8
    assert all(each.job.chance < 0.8 and each.row.price <= found.found.row.price for each in found.over)
    assert found == sure_design(file, truths=FEW)
    # What was written is sure enough by itself, in the same truths.
    new = tmp_path / "new.toml"
    write_sure(found, new)
    again = sure_design(new, truths=FEW)
    assert again.pick is not None
    assert again.pick.job == found.found.job
    assert again.pick.row.price == found.found.row.price


def test_where_none_is_sure_enough_it_says_what_holds_it_back(tmp_path: Path) -> None:
    found = sure_design(opened(tmp_path, "99.9 %"), truths=FEW)
    assert found.found is None
    assert found.pick is not None
    assert found.best is not None
    assert found.best.job.chance >= found.pick.job.chance
    held = {chance.check: is_open for chance, is_open in found.held_back}
    # The highest tap's pressure over the switch hangs on the switch and the tap, which the job names.
    assert held["taps_have_pressure"] is False or held["delivers_the_need"] is True
    text = "\n".join(sure_lines(found))
    assert "None holds in 100 of 100" in text
    customer = text[text.index("For the customer") :]
    assert "before we order" in customer
    assert "%" not in customer
    assert "of 100" not in customer
    with pytest.raises(AskError, match="no design is sure enough"):
        write_sure(found, tmp_path / "none.toml")


def test_where_no_suction_pump_will_do_there_is_no_walk() -> None:
    found = sure_design(EXAMPLES / "no_suction_pump.toml", truths=FEW)
    assert found.found is None
    assert found.ways_out
    assert "No design." in next(sure_lines(found))
