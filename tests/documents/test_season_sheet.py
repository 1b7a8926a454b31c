"""The season sheet: everything on one page, no two texts in one place, whatever the job."""

from __future__ import annotations

import itertools
from pathlib import Path

import pytest

from lakewright.api.packet import packet
from lakewright.api.report import report_on
from lakewright.documents.paper import PAPERS
from lakewright.documents.scene import Text
from lakewright.documents.season_sheet import season_sheet
from lakewright.errors import AskError
from lakewright.job.read import read_job_text
from lakewright.job.write import set_values
from lakewright.report import Report
from lakewright.state.assemble import facts_of
from lakewright.stock.load import load_stock
from tests.state.still_table import EXAMPLES
from tests.test_report import NEVER_SAID

pytestmark = pytest.mark.law

NAMES = ("year_round_cabin", "stream_irrigation", "stock_tank")
SEASONS = ("year-round", "hauled", "drained")
MORE = {
    "need.winter_by": "the neighbour, who has done it for years and has the key to the boathouse",
    "need.drinking": "yes",
    "site.ice.shove": "yes",
    "delivery.heater_volume": "50 gal",
    "pump.casing_volume": "1 gal",
    "need.close_by": "2026-09-12",
    "site.frost.first": "2026-10-06",
}


def reported(name: str, changes: dict[str, str]) -> Report:
    text = set_values((EXAMPLES / f"{name}.toml").read_text(encoding="utf-8"), changes)
    job = read_job_text(text)
    return report_on(job, facts_of(job, load_stock()))


@pytest.mark.parametrize("system", PAPERS)
@pytest.mark.parametrize("season", SEASONS)
@pytest.mark.parametrize("name", NAMES)
def test_no_two_texts_meet_and_none_leaves_the_sheet(name: str, season: str, system: str) -> None:
    report = reported(name, {**MORE, "need.season": season, "job.units": system})
    drawn = season_sheet(report)
    texts = [shape for shape in drawn.shapes if isinstance(shape, Text)]
    boxes = [text.box for text in texts]
    assert all(box.left > 0.0 and box.right < drawn.width and box.top > 0.0 for box in boxes)
    assert all(box.bottom < drawn.height for box in boxes)
    met = [
        (one.words, other.words)
        for (one, a), (other, b) in itertools.combinations(zip(texts, boxes, strict=True), 2)
        if a.left < b.right - 0.05 and b.left < a.right - 0.05 and a.top < b.bottom - 0.3 and b.top < a.bottom - 0.3
    ]
    assert met == []
    said = " ".join(text.words for text in texts)
    for part in report.season:
        assert part.title in said or part is report.season[0]
    assert not NEVER_SAID.search(said)


def test_the_packet_writes_it(tmp_path: Path) -> None:
    written = packet(EXAMPLES / "stream_irrigation.toml", tmp_path, ["season"])
    assert {"stream_irrigation-season.pdf", "stream_irrigation-season.svg"} <= {file.name for file in written}


@pytest.mark.message
def test_where_no_pump_will_do_there_is_nothing_to_winter(tmp_path: Path) -> None:
    with pytest.raises(AskError, match="no season sheet: no suction pump will do here"):
        packet(EXAMPLES / "no_suction_pump.toml", tmp_path, ["season"])
