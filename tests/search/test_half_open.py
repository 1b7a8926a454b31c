"""The examples with half of their parts left open: what is chosen passes, and is the job that is written."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from shutil import copytree

import pytest

from lakewright.api.check import check
from lakewright.api.design import design, write_pick
from lakewright.job.write import set_values

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"

ANY_PUMP = {"suction.stock": "open", "pump.stock": "open", "pump.kind": "open", "delivery.tank": "open"}
HALF_OPEN: Mapping[str, Mapping[str, str]] = {
    "year_round_cabin_open": {},
    "stream_irrigation": {
        **ANY_PUMP,
        "stand.form": "open",
        "stand.inlet.attitude": "",
        "stand.at": "open",
        "stand.inlet.screen": "open",
    },
    "stock_tank": {**ANY_PUMP, "stand.inlet.stock": "open", "delivery.stock": "open"},
}


def half_open(folder: Path, name: str, changes: Mapping[str, str]) -> Path:
    copytree(EXAMPLES / "waters", folder / "waters")
    file = folder / f"{name}.toml"
    file.write_text(set_values((EXAMPLES / file.name).read_text(encoding="utf-8"), changes), encoding="utf-8")
    return file


@pytest.mark.slow
@pytest.mark.law
@pytest.mark.parametrize("name", HALF_OPEN)
def test_what_is_chosen_for_an_example_passes_and_is_the_job_written(name: str, tmp_path: Path) -> None:
    choice = design(half_open(tmp_path, name, HALF_OPEN[name]))
    assert choice.passing > 1000
    assert choice.circuits < choice.choices
    assert choice.pick is not None
    assert choice.pick.passed
    assert not choice.shortlist[0].stands_against
    # What a pick takes for granted once it has a pump, its cable among it, is on its bill as on that of its file.
    assert choice.pick.priced is not None
    assert choice.pick.priced.quote.total == choice.shortlist[0].price
    made = tmp_path / "made.toml"
    write_pick(choice, made)
    again = check(made)
    assert again.passed
    assert again.priced is not None
    assert again.priced.quote.total == choice.shortlist[0].price


@pytest.mark.law
def test_where_no_suction_pump_will_do_nothing_is_searched(tmp_path: Path) -> None:
    choice = design(half_open(tmp_path, "no_suction_pump", {**ANY_PUMP, "stand.at": "open"}))
    assert choice.ways_out
    assert (choice.choices, choice.pick) == (0, None)
