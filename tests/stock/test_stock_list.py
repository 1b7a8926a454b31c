"""The list of the stock as it is printed."""

from __future__ import annotations

from pathlib import Path

import pytest

from lakewright.api.stock import StockRow, every_kind, stock_list
from lakewright.errors import AskError

pytestmark = pytest.mark.message


def test_a_kind_is_listed_in_the_order_of_its_table() -> None:
    rows = stock_list("cable").rows
    assert [row.name for row in rows] == [f"cable, buried, copper, {gauge} AWG" for gauge in (14, 12, 10, 8, 6, 4)]
    assert rows[1] == StockRow(
        kind="cable",
        name="cable, buried, copper, 12 AWG",
        detail="copper, resistance 1.930 ohm/1000 ft, reactance 0.054 ohm/1000 ft, 20.0 A at 60 C, 25.0 A at 75 C, "
        "30.0 A at 90 C",
        counter="$0.89/ft",
        trade="$0.71/ft",
        web="$0.83/ft",
        priced="2026-03-02",
        supplier="county electric counter",
        lead="in stock",
        bin="W-021",
    )


@pytest.mark.parametrize(
    "kind, text, detail",
    [
        (
            "pipe",
            "suction hose, drinking water, 1-1/4",
            "reinforced PVC, bore 1.250 in, 90 psi, vacuum 28.0 inHg, for drinking, keep from the sun, "
            "lengths 50 100 ft",
        ),
        ("foot valve", "hinged, 2 in", "seats down, opens at 0.0 psi"),
        ("screen", "cylinder screen, 4 x 12", "profile wire, opening 0.069 in, area 151 in2, 43 % open"),
        ("pump", "two-stage, 3/4", "shut-off 195.0 ft, to 24.0 gpm, 1-1/4 x 1 in"),
        ("jet pump", "shallow, 1/2", "shut-off 58 psi, to 7.6 gpm, 1-1/4 x 1 in"),
        ("tank", "62", "lets in 34.5 gal, 100 psi"),
        (
            "compound gauge",
            "100",
            "brass, thread out 1/4 NPT, 100 psi, most vacuum 30.0 inHg, most pressure 100 psi",
        ),
        (
            "ultraviolet",
            "6 gpm",
            "stainless steel, thread out 3/4 NPT, 100 psi, rated flow 6.0 gpm, dose 40 mJ/cm2, transmittance 75 %, "
            "power 30 W, lamp life 9000 h",
        ),
    ],
)
def test_what_tells_one_row_from_the_next(kind: str, text: str, detail: str) -> None:
    assert next(row.detail for row in stock_list(kind, text).rows) == detail


def test_metric_houses_read_metric() -> None:
    row = stock_list("pipe", "copper 1-1/2", "SI").rows[0]
    assert row.detail == "copper, bore 38.2 mm, 2813 kPa, for drinking, lengths 6.1 m"
    assert row.counter == "$36.61/m"


def test_every_word_asked_for_must_be_there() -> None:
    assert {row.kind for row in stock_list(text="hose shank brass").rows} == {
        "male adapter",
        "female adapter",
        "coupling",
    }
    assert stock_list(text="hose shank gold").rows == ()
    assert len(stock_list().rows) == 1214
    assert all("mill street pump" in row.supplier for row in stock_list(text="Mill Street").rows)


@pytest.mark.parametrize("kind", ["tees", "TEE", "hose-bib", "hose bibs", "o-rings", "elbows", "bushings"])
def test_a_kind_may_be_written_as_one_speaks(kind: str) -> None:
    assert stock_list(kind).rows


def test_every_kind_has_rows() -> None:
    assert [kind for kind in every_kind() if not stock_list(kind).rows] == []


def test_a_kind_that_is_none_offers_the_nearest() -> None:
    with pytest.raises(AskError) as caught:
        stock_list("spring chek")
    assert str(caught.value) == (
        "found 'spring chek'; wanted a kind of part; write one of: spring check, swing check, priming tee"
    )


def test_the_shop_stands_over_ours(tmp_path: Path) -> None:
    file = tmp_path / "own.csv"
    file.write_text('name,counter_cents,trade_cents\n"clamp, stainless steel, 1 in",210,150\nnobody,1,1\n')
    listed = stock_list("clamp", "1 in", own=file)
    assert listed.rows[0].counter == "$2.10"
    assert [mistake.line for mistake in listed.mistakes] == [3]
    assert listed.note == "Prices, price dates, suppliers and bins are invented, as are pumps, jets, tanks and screens."
