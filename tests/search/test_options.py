"""What may be chosen, what is refused, and in which words."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from lakewright.api.design import MOST, design
from lakewright.errors import JobError
from lakewright.job.write import set_values
from lakewright.search.options import refuse_the_entangled
from lakewright.search.stand_options import RISERS
from tests.search.problems import EVERYTHING, EXAMPLE, whole

STAND_AND_DELIVERY = {**EVERYTHING, "delivery.tank": "open"}


def written(folder: Path, changes: dict[str, str]) -> Path:
    file = folder / "job.toml"
    file.write_text(set_values(EXAMPLE.read_text(encoding="utf-8"), changes), encoding="utf-8")
    return file


@pytest.mark.law
def test_a_stand_and_a_delivery_line_are_chosen(tmp_path: Path) -> None:
    choice = design(written(tmp_path, {"stand.riser": "open", "stand.inlet.screen": "open", "delivery.stock": "open"}))
    assert choice.open_parts == ("riser", "screen", "delivery")
    assert choice.passing > 0
    assert choice.pick is not None
    for row in choice.shortlist:
        assert [name for name, _ in row.parts] == list(choice.open_parts)
    prices = [row.price + row.call_back for row in choice.shortlist[1:]]
    assert prices == sorted(prices)


@pytest.mark.law
def test_the_pick_is_the_job_with_its_choices_written_in(tmp_path: Path) -> None:
    """Whoever copies the pick into the file and asks again finds the same margins."""
    from lakewright.api.check import check

    changes = {"stand.inlet.stock": "open", "stand.inlet.screen": "open", "delivery.tank": "open"}
    choice = design(written(tmp_path, changes))
    assert choice.pick is not None
    named = dict(choice.shortlist[0].parts)
    says = {
        "stand.inlet.stock": f"foot valve, {named['foot valve']}",
        "stand.inlet.screen": named["screen"],
        "delivery.tank": named["tank"],
    }
    again = check(written(tmp_path, says))
    assert [f.margin for f in again.findings] == [f.margin for f in choice.pick.findings]
    assert [f.status for f in again.findings] == [f.status for f in choice.pick.findings]


@pytest.mark.law
def test_with_nothing_open_the_one_design_is_judged(tmp_path: Path) -> None:
    choice = design(written(tmp_path, {}))
    assert choice.open_parts == ()
    assert (choice.choices, choice.circuits) == (1, 1)
    assert choice.pick is not None


@pytest.mark.message
def test_a_job_with_everything_open_is_asked_to_close_a_part(tmp_path: Path) -> None:
    changes = {**STAND_AND_DELIVERY, "suction.stock": "open", "stand.at": "open"}
    with pytest.raises(JobError) as error:
        design(written(tmp_path, changes))
    (mistake,) = error.value.mistakes
    assert mistake.found.endswith(" different circuits")
    assert int(mistake.found.split()[0].replace(",", "")) > MOST
    assert mistake.wanted == "5,000,000 at most, which take ten minutes"
    assert mistake.remedy.startswith("close one of: spot (")
    assert "tank" not in mistake.remedy


@pytest.mark.message
def test_an_open_part_that_nothing_in_stock_fills_is_a_mistake(tmp_path: Path) -> None:
    """No tank in stock bears 150 psi."""
    file = written(tmp_path, {"delivery.tank": "open", "delivery.cut_out": "150 psi"})
    with pytest.raises(JobError) as error:
        design(file)
    (mistake,) = error.value.mistakes
    assert (mistake.file, mistake.key, mistake.found) == (str(file), "tank", '"open"')
    assert mistake.wanted == "an option to choose from"
    assert mistake.remedy == "give it, or add to the stock or the site what could be chosen"


@pytest.mark.message
def test_a_fact_that_hangs_on_two_parts_is_refused() -> None:
    problem = whole()
    twice = replace(problem.part("tank"), columns=problem.part("spot").columns)
    with pytest.raises(JobError) as error:
        refuse_the_entangled((problem.part("spot"), twice))
    (mistake,) = error.value.mistakes
    assert mistake.found == "spot and tank open, and stand.depth follows from both"


@pytest.mark.law
def test_a_quotes_usual_line_is_chosen_while_its_length_is_not_known() -> None:
    usual = {"job.grade": "quote", "suction.stock": ""}
    assert whole(usual).part("line").size > 1
    assert whole({**usual, "suction.stock": "suction hose, 1-1/2 in"}).part("line").size == 1


@pytest.mark.law
def test_a_flow_control_valve_may_be_none_or_any_in_stock() -> None:
    problem = whole({"delivery.flow_control": "open"})
    part = problem.part("flow control")
    (flow,) = part.columns.values()
    assert part.labels[0] == "none"
    assert np.isinf(flow[0]).all()
    assert np.isfinite(flow[1:]).all()
    assert part.price[0] == 0.0 < part.price[1:].min()  # none is the first design's
    assert whole().part("flow control").size == 1


@pytest.mark.law
def test_risers_are_tried_at_every_length() -> None:
    part = whole({"stand.riser": "open"}).part("riser")
    assert part.columns["stand.riser"].ravel().tolist() == list(RISERS)
