"""The JSON of everything: a job opened from it is the same job, and its report the same to the last bit."""

from __future__ import annotations

import json
import math
import shutil
from pathlib import Path
from typing import Any

import openpyxl
import pytest

from lakewright.api.everything import everything_files, reopen
from lakewright.api.packet import packet
from lakewright.api.read import read
from lakewright.api.report import report_on
from lakewright.documents.everything import files_in
from lakewright.documents.paper import fingerprint
from lakewright.errors import AskError
from lakewright.report import Report
from lakewright.state.facts import every_fact
from tests.job.example import EXAMPLE

pytestmark = pytest.mark.law

EXAMPLES = sorted(EXAMPLE.parent.glob("*.toml"))


def written(path: Path) -> tuple[Report, bytes]:
    job, stock, assembly = read(path)
    report = report_on(job, assembly, stock=stock)
    return report, everything_files(job, stock, assembly, report)["everything.json"]


def kept(folder: Path, content: bytes) -> Path:
    file = folder / "kept.json"
    file.write_bytes(content)
    return file


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_a_job_opened_from_it_gives_the_same_report_to_the_last_bit(tmp_path: Path, path: Path) -> None:
    report, content = written(path)
    first, *_ = reopen(kept(tmp_path, content), tmp_path / "again")
    assert first == tmp_path / "again" / path.name
    assert first.read_bytes() == path.read_bytes()
    again, same = written(first)
    assert again.as_json() == report.as_json()
    assert repr(again) == repr(report)
    assert same == content


def test_in_other_units_it_is_still_the_job_as_it_was_written() -> None:
    job, stock, assembly = read(EXAMPLE)
    metric = job.model_copy(update={"job": job.job.model_copy(update={"units": "SI"})})
    shown = report_on(metric, assembly, stock=stock)
    assert everything_files(metric, stock, assembly, shown)["everything.json"] == written(EXAMPLE)[1]


def test_records_beside_the_job_come_with_it(tmp_path: Path) -> None:
    home = tmp_path / "home"
    (home / "waters").mkdir(parents=True)
    for water in (EXAMPLE.parent / "waters").glob("*.toml"):
        shutil.copy(water, home / "waters")
    book = openpyxl.Workbook()
    for row in (("distance ft", "depth ft"), (0, 0), (60, 8), (120, 17), (240, 31)):
        book.active.append(row)
    book.save(home / "bed.xlsx")
    text = EXAMPLE.read_text(encoding="utf-8")
    start, end = text.index("# Out from the water"), text.index("# Up from the water")
    text = text[:start] + text[end:].replace("low   = { value", "low2 = { value")
    text = text.replace("[site]\n", '[site]\nsoundings_file = "bed.xlsx"\n')
    (home / "job.toml").write_bytes(text.replace("\n", "\r\n").encode())
    report, content = written(home / "job.toml")
    said = json.loads(content)
    assert set(said["files"]) == {"job.toml", "bed.xlsx", "waters/long_arm_lake.toml"}
    places = reopen(kept(tmp_path, content), tmp_path / "again")
    for file in places:
        assert file.read_bytes() == (home / file.relative_to(tmp_path / "again")).read_bytes()
    again, same = written(places[0])
    assert repr(again) == repr(report)
    assert same == content


def test_it_holds_facts_with_standing_findings_bill_gauges_and_season() -> None:
    report, content = written(EXAMPLE)
    said = json.loads(content)
    assert said["fingerprint"] == fingerprint(report)
    assert said["version"] == report.version
    assert list(said["facts"]) == list(every_fact())
    assert {fact["standing"] for fact in said["facts"].values()} >= {"told", "measured", "looked up", "assumed"}
    assert said["facts"]["pump.height"]["value"] == [pytest.approx(7.7 * 0.3048)]
    assert said["report"] == json.loads(json.dumps(report.as_json()))
    for part in ("findings", "gauges", "season", "price", "cautions", "first_line"):
        assert said["report"][part]


def test_what_is_missing_says_why_and_no_number_is_none() -> None:
    _, content = written(EXAMPLE.parent / "year_round_cabin_open.toml")

    def finite(value: Any) -> bool:
        if isinstance(value, dict):
            return all(map(finite, value.values()))
        return (
            all(map(finite, value)) if isinstance(value, list) else not isinstance(value, float) or math.isfinite(value)
        )

    said = json.loads(content)
    assert finite(said)
    unknown = [fact for fact in said["facts"].values() if fact["value"] == [None]]
    assert any("open" in fact.get("missing", "") for fact in unknown)


def test_the_packet_writes_it(tmp_path: Path) -> None:
    files = packet(EXAMPLE, tmp_path, ["everything"])
    assert tmp_path / "year_round_cabin-everything.json" in files


@pytest.mark.message
def test_what_cannot_be_opened_is_refused_and_nothing_is_written(tmp_path: Path) -> None:
    _, content = written(EXAMPLE)
    said = json.loads(content)
    home = tmp_path / "home"
    for name in ("../job.toml", "/job.toml", "waters/../../job.toml", "a\\b.toml", "other/job.toml"):
        odd = {**said, "files": {**said["files"], name: "x"}}
        with pytest.raises(AskError, match="names files that do not lie beside its job; have it written anew"):
            reopen(kept(tmp_path, json.dumps(odd).encode()), home)
    for text in ("", "[]", "{}", '{"lakewright": 1, "job": "a", "files": {"a": 1}}', "[" * 100_000):
        with pytest.raises(
            AskError, match="is no job with all that belongs to it; packet --also everything writes one"
        ):
            files_in(text, "kept.json")
    with pytest.raises(AskError, match="is written in form 2, and this version reads form 1"):
        files_in(json.dumps({**said, "lakewright": 2}), "kept.json")
    with pytest.raises(AskError, match="cannot be read; name the JSON"):
        reopen(tmp_path / "nowhere.json", home)
    assert not home.exists()


@pytest.mark.message
def test_nothing_that_says_something_else_is_written_over(tmp_path: Path) -> None:
    _, content = written(EXAMPLE)
    file = kept(tmp_path, content)
    first, *_ = reopen(file, tmp_path)
    assert reopen(file, tmp_path)[0] == first
    first.write_text("[job]\n", encoding="utf-8")
    with pytest.raises(AskError, match="is there already and says something else; name another folder"):
        reopen(file, tmp_path)
    assert first.read_text(encoding="utf-8") == "[job]\n"
