"""Every list of tables of the job's model can be edited row by row."""

from __future__ import annotations

from pathlib import Path

import pytest

from lakewright.api.look import changed
from lakewright.api.rows import lists, rows_of
from lakewright.job.fields import walk

CABIN = (Path(__file__).resolve().parents[2] / "examples" / "year_round_cabin.toml").read_text(encoding="utf-8")


def test_every_list_of_the_model_is_there_and_takes_a_row() -> None:
    model = {".".join(path) for path, _, form in walk() if form == "rows"}
    assert {each.key for each in lists(CABIN)} == model
    for each in lists(CABIN):
        rows = rows_of(CABIN, each.key, with_blank=True)
        assert [row.number for row in rows] == list(range(1, each.count + 2))
        blank = rows[-1]
        assert blank.is_blank
        assert not any(field.value for field in (*blank.first, *blank.rest))
        field = blank.first[0]
        said = next(
            (one for some in field.offers.values() for one in some), "2026-05-03" if field.form == "date" else "3"
        )
        grown = changed(CABIN, {field.key: said}, {}, "2026-05-03")
        assert next(one.count for one in lists(grown) if one.key == each.key) == each.count + 1
        # Taken away again, the draft is what it was.
        taken = changed(grown, {blank.key: ""}, {}, "2026-05-03")
        assert taken.split() == CABIN.split()


def test_a_step_is_offered_the_parts_of_the_stock() -> None:
    step = rows_of(CABIN, "treatment.steps")[0]
    stock = next(field for field in (*step.first, *step.rest) if field.name == "stock")
    assert "ultraviolet" in stock.offers
    assert all(stock.offers.values())


def test_what_is_no_list_of_tables_is_refused() -> None:
    with pytest.raises(LookupError):
        rows_of(CABIN, "pump.stock")
