"""A job priced: the bill and the quote that stands on it are of one job."""

from __future__ import annotations

from pathlib import Path

import pytest

from lakewright.api.read import assembled
from lakewright.job.write import set_values
from lakewright.state.priced import priced

EXAMPLES = Path(__file__).parents[2] / "examples"


@pytest.mark.law
@pytest.mark.parametrize("name", ["year_round_cabin", "stream_irrigation", "stock_tank"])
def test_contingency_is_on_the_parts_in_the_water_and_no_others(name: str) -> None:
    """With work by others and the boat's price said, a tenth is of stand, suction line and boat."""
    text = (EXAMPLES / f"{name}.toml").read_text(encoding="utf-8")
    said = {"price.hours": "0 h", "price.boat": "$100", "price.boat_half_day": ""}
    found = priced(*assembled(set_values(text, said), EXAMPLES / f"{name}.toml"))
    wet = sum(line.price for line in found.bill.lines if line.station in ("stand", "suction line"))
    charged = next(line.cost for line in found.quote.lines if line.kind == "contingency")
    assert wet < found.bill.price
    assert abs(charged - 0.10 * (wet + 10_000)) <= 0.5
