"""Many jobs against many scenarios: one row is its row in a batch, nothing is judged twice, nothing stops the rest."""

from __future__ import annotations

import csv
import io
import json
import math
from pathlib import Path

import numpy as np
import pytest

from lakewright.api.check import check
from lakewright.api.read import read
from lakewright.api.sweep import Sweep, sites_in, sweep, write_sweep
from lakewright.checks.registry import CHECKS
from lakewright.errors import AskError, JobError
from lakewright.job.scenarios import AS_IT_IS, Scenario, read_scenarios, read_scenarios_text
from lakewright.search.sweep import outcomes
from tests.made import sound
from tests.search.sweep_jobs import EXAMPLES, SCENARIOS, Cluster, printed, write_jobs


@pytest.fixture(scope="module")
def jobs(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("jobs")
    write_jobs(folder, 20)
    (folder / "broken.toml").write_text("[job\n", encoding="utf-8")
    return folder


@pytest.fixture(scope="module")
def swept(jobs: Path, tmp_path_factory: pytest.TempPathFactory) -> Sweep:
    return sweep(jobs, SCENARIOS, tmp_path_factory.mktemp("record") / "record.jsonl")


@pytest.mark.law
@pytest.mark.parametrize("name", ["year_round_cabin", "stream_irrigation", "stock_tank", "no_suction_pump"])
def test_a_scenario_alone_is_its_row_among_others(name: str) -> None:
    facts = read(EXAMPLES / f"{name}.toml")[2].facts
    some = [each for each in read_scenarios(SCENARIOS) if not each.change]
    assert [repr(each) for each in outcomes(facts, some)] == [repr(outcomes(facts, [one])[0]) for one in some]


@pytest.mark.law
def test_what_fails_is_said_before_what_is_unknown() -> None:
    facts = sound().with_values({"need.flow": np.ones(1), "taps.height": np.full(1, np.nan)})
    (found,) = outcomes(facts, [Scenario("as it is")])
    assert "delivers_the_need" in found.fails
    assert "taps_have_pressure" in found.unknown
    assert found.status == "fails"


def test_as_it_is_says_what_check_says() -> None:
    file = EXAMPLES / "year_round_cabin.toml"
    found = outcomes(read(file)[2].facts, [Scenario(AS_IT_IS)])[0]
    report = check(file)
    margins = {finding.name: finding.margin for finding in report.findings}
    for each, margin in zip(CHECKS, found.margins, strict=True):
        said = margins[each.name]
        assert said is None or said == margin
    assert report.passed == (found.status in ("holds", "tight"))


@pytest.mark.law
def test_a_lower_lake_never_covers_the_inlet_more() -> None:
    facts = read(EXAMPLES / "year_round_cabin.toml")[2].facts
    at = [check.name for check in CHECKS].index("water_covers_the_inlet")
    margins = [each.margins[at] for each in outcomes(facts, [Scenario(str(n), level=-0.2 * n) for n in range(12)])]
    assert margins == sorted(margins, reverse=True)
    assert margins[0] > margins[-1]


def test_one_bad_job_stops_nothing(swept: Sweep) -> None:
    bad = {each.job: each.outcomes[0] for each in swept.jobs if each.outcomes[0].status == "not judged"}
    assert list(bad) == ["broken.toml"]
    assert "broken.toml" in bad["broken.toml"].trouble
    assert len(swept.jobs) == 21
    assert all(len(each.outcomes) == 20 for each in swept.jobs)


def test_a_sweep_goes_on_where_it_was_stopped(jobs: Path, swept: Sweep, tmp_path: Path) -> None:
    record = tmp_path / "record.jsonl"
    sweep(jobs, SCENARIOS, record)
    lines = record.read_bytes().splitlines(keepends=True)
    # Stopped in the middle of a line.
    record.write_bytes(b"".join(lines[:12]) + lines[12][:70])
    again = sweep(jobs, SCENARIOS, record)
    assert again.taken_over == 12
    assert printed(again) == printed(swept)
    assert sweep(jobs, SCENARIOS, record).taken_over == 21


def test_a_job_that_changed_is_judged_anew(tmp_path: Path) -> None:
    folder, record = tmp_path / "jobs", tmp_path / "record.jsonl"
    write_jobs(folder, 3)
    sweep(folder, SCENARIOS, record)
    file = folder / "job_00001.toml"
    file.write_text(file.read_text(encoding="utf-8") + "\n# seen again\n", encoding="utf-8")
    assert sweep(folder, SCENARIOS, record).taken_over == 2
    water = next((folder / "waters").glob("*.toml"))
    water.write_text(water.read_text(encoding="utf-8") + "\n# seen again\n", encoding="utf-8")
    assert sweep(folder, SCENARIOS, record).taken_over == 0


@pytest.mark.serial
def test_cores_and_a_cluster_with_a_killed_worker_find_the_same(jobs: Path, swept: Sweep, tmp_path: Path) -> None:
    assert printed(sweep(jobs, SCENARIOS, tmp_path / "cores.jsonl", cores=2)) == printed(swept)
    with Cluster(18797) as cluster:
        killed = []

        def tell(done: int, _: int) -> None:
            if not killed:
                cluster.kill_one()
                killed.append(done)

        found = sweep(jobs, SCENARIOS, tmp_path / "cluster.jsonl", cluster=cluster.address, progress=tell)
    assert killed
    assert printed(found) == printed(swept)
    assert write_bytes(found, tmp_path / "a") == write_bytes(swept, tmp_path / "b")


def write_bytes(found: Sweep, folder: Path) -> dict[str, bytes]:
    return {file.name: file.read_bytes() for file in write_sweep(found, folder)}


def test_a_table_of_sites_changes_a_template(tmp_path: Path) -> None:
    table = tmp_path / "sites.csv"
    table.write_text(
        "job,pump.height,need.flow\nupper cabin,8 ft,\nhigh cabin,40 ft,8 gpm\n=1+1,9 ft,8 gpm\nbad,nine,8 gpm\n",
        encoding="utf-8",
    )
    found = sweep(table, None, tmp_path / "record.jsonl", EXAMPLES / "year_round_cabin.toml")
    status = {each.job: each.outcomes[0].status for each in found.jobs}
    assert status == {"upper cabin": "tight", "high cabin": "fails", "=1+1": "tight", "bad": "not judged"}
    files = {file.name: file for file in write_sweep(found, tmp_path / "to")}
    rows = list(csv.DictReader(io.StringIO(files["outcomes.csv"].read_text(encoding="utf-8"))))
    assert [row["job"] for row in rows] == ["upper cabin", "high cabin", "'=1+1", "bad"]
    with pytest.raises(AskError, match="--template"):
        sweep(table, None, tmp_path / "record.jsonl")


def test_a_table_of_sites_is_read_with_any_line_ends_and_refused_where_it_is_none(tmp_path: Path) -> None:
    table, template = tmp_path / "sites.csv", EXAMPLES / "year_round_cabin.toml"
    for ends in ("\n", "\r\n", "\r"):
        table.write_bytes(f"\ufeffjob,pump.height{ends}upper,8 ft{ends}lower,7 ft{ends}".encode())
        assert [site.name for site in sites_in(table, template)] == ["upper", "lower"]
    table.write_text(f'job,pump.height\nupper,"{"x" * 140_000}\n', encoding="utf-8")
    with pytest.raises(AskError, match=r"sites\.csv:2: field larger than field limit"):
        sites_in(table, template)


def test_parquet_has_every_margin(swept: Sweep, tmp_path: Path) -> None:
    from pyarrow import parquet

    file = next(file for file in write_sweep(swept, tmp_path) if file.suffix == ".parquet")
    table = parquet.read_table(file)
    assert table.num_rows == 21 * 20
    margins = table.column("water_covers_the_inlet").to_pylist()
    at = [check.name for check in CHECKS].index("water_covers_the_inlet")
    flat = [outcome for each in swept.jobs for outcome in each.outcomes]
    for read_back, outcome in zip(margins, flat, strict=True):
        there = outcome.margins[at] if outcome.margins else math.nan
        assert read_back == there or (math.isnan(read_back) and math.isnan(there))


@pytest.mark.message
def test_mistakes_in_scenarios_are_told_all_at_once() -> None:
    text = '[[scenario]]\nname = "a"\nlevel = "-2"\nsunny = "yes"\n\n[[scenario]]\nname = "a"\nwear = "120 %"\n'
    with pytest.raises(JobError) as error:
        read_scenarios_text(text, "s.toml")
    assert [(each.line, each.key) for each in error.value.mistakes] == [
        (3, "level"),
        (4, "sunny"),
        (7, "name"),
        (8, "wear"),
    ]
    for text in (
        "",
        "[[scenario]]\n",
        "scenario = 1\n",
        '[[scenario]]\nname = "as it is"\n',
        "[[scenario]]\nname = 3\n",
    ):
        with pytest.raises(JobError):
            read_scenarios_text(text)


def test_other_scenarios_of_the_same_name_are_judged_anew(tmp_path: Path) -> None:
    folder, record, scenarios = tmp_path / "jobs", tmp_path / "record.jsonl", tmp_path / "scenarios.toml"
    folder.mkdir()
    (folder / "cabin.toml").write_bytes((EXAMPLES / "year_round_cabin.toml").read_bytes())
    lifts = []
    for level in ("0 ft", "-2 ft"):
        scenarios.write_text(f'[[scenario]]\nname = "lower"\nlevel = "{level}"\n', encoding="utf-8")
        found = sweep(folder, scenarios, record)
        assert found.taken_over == 0
        lifts.append(found.jobs[0].outcomes[1].lift)
    assert lifts[1] - lifts[0] == pytest.approx(2 * 0.3048)
    assert sweep(folder, scenarios, record).taken_over == 1


def test_a_record_keeps_what_any_name_says(tmp_path: Path) -> None:
    folder = tmp_path / "jobs"
    folder.mkdir()
    base = (EXAMPLES / "stock_tank.toml").read_text(encoding="utf-8")
    (folder / "שלום \u202e =1+1.toml").write_text(base, encoding="utf-8")
    found = sweep(folder, None, tmp_path / "record.jsonl")
    assert [each.job for each in found.jobs] == ["שלום \u202e =1+1.toml"]
    assert json.loads((tmp_path / "record.jsonl").read_text(encoding="utf-8"))["job"] == found.jobs[0].job
    assert sweep(folder, None, tmp_path / "record.jsonl").taken_over == 1


def test_a_record_that_cannot_be_written_is_told(jobs: Path, tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("", encoding="utf-8")
    with pytest.raises(AskError, match="name another folder"):
        sweep(jobs, None, tmp_path / "taken" / "record.jsonl")


@pytest.mark.message
def test_a_name_without_end_is_refused() -> None:
    """Two hundred thousand letters took a chart twenty seconds and more to lay out."""
    with pytest.raises(JobError, match="text of 200000 letters") as refused:
        read_scenarios_text(f'[[scenario]]\nname = "{200_000 * "x"}"\nlevel = "-1 ft"\n')
    assert "say it shorter" in str(refused.value)
