"""`diagnose` by its command: one object of JSON, every reading with its tolerance, fewer readings, impossible ones."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from lakewright.cli import main
from lakewright.diagnosis_lines import NAMES
from lakewright.search.diagnose import BESIDE
from lakewright.search.faults import every_fault

CABIN = (Path(__file__).parents[2] / "examples" / "year_round_cabin.toml").read_text(encoding="utf-8")
SICK = {
    "suction_standing": "7.5 inHg vacuum",
    "suction_running": "17 inHg vacuum",
    "pressure_running": "40 psi",
    "flow": "6.8 gpm",
}
Capture = pytest.CaptureFixture[str]


def job(tmp_path: Path, read: dict[str, str], cabin: str = CABIN) -> str:
    file = tmp_path / "cabin.toml"
    lines = "".join(f'{name} = "{value}"\n' for name, value in read.items())
    file.write_text(f"{cabin}\n[[readings]]\ndate = 2026-08-14\n{lines}", encoding="utf-8")
    return str(file)


def no_constant(name: str) -> Any:
    raise AssertionError(f"{name} is not JSON")


def diagnosed(capsys: Capture, file: str) -> dict[str, Any]:
    """What the command prints as JSON."""
    assert main(["diagnose", file, "--json"]) == 0
    found: dict[str, Any] = json.loads(capsys.readouterr().out, parse_constant=no_constant)
    return found


def doubt_of(found: dict[str, Any]) -> float:
    """How wide an answer is: the entropy of the chances of what gauges can tell apart."""
    kinds: dict[str, float] = {}
    for suspect in found["suspects"]:
        kinds[suspect["alike"]] = kinds.get(suspect["alike"], 0.0) + suspect["chance"]
    chances = np.array(list(kinds.values()))
    return float(-np.sum(chances * np.log(np.maximum(chances, 1e-300))))


def impossible(found: dict[str, Any]) -> list[str]:
    return [each["name"] for each in found["impossible"]]


@pytest.mark.law
def test_json_is_one_object_with_every_fault_and_all_that_is_printed(tmp_path: Path, capsys: Capture) -> None:
    found = diagnosed(capsys, job(tmp_path, SICK))
    assert list(found) == [
        *("job", "visit", "suspects", "beside", "next", "fits", "impossible", "unweighed", "why_unweighed"),
        *("held", "level", "expected", "answers"),
    ]
    assert (found["job"], found["visit"]) == ("Heron Point cabin", "2026-08-14")
    chances = [suspect["chance"] for suspect in found["suspects"]]
    assert chances == sorted(chances, reverse=True)
    assert sum(chances) + found["beside"] == pytest.approx(1.0)
    assert {suspect["fault"] for suspect in found["suspects"]} <= {fault.name for fault in every_fault()}
    for suspect in found["suspects"]:
        assert suspect["lost"]["low"] <= suspect["lost"]["middle"] <= suspect["lost"]["high"]
    assert {test["kind"] for test in found["next"]} <= {"read", "ask", "look"}
    assert found["level"][0] < found["level"][1]
    assert found["held"] == "held by foot valve and check"


@pytest.mark.law
def test_json_is_si_whatever_the_job_is_written_in(tmp_path: Path, capsys: Capture) -> None:
    us = diagnosed(capsys, job(tmp_path, SICK))
    si = diagnosed(capsys, job(tmp_path, SICK, CABIN.replace('units = "US"', 'units = "SI"')))
    for key in ("suspects", "expected", "level", "next"):
        assert us[key] == si[key]


@pytest.mark.law
def test_every_reading_is_expected_with_a_tolerance(tmp_path: Path, capsys: Capture) -> None:
    found = diagnosed(capsys, job(tmp_path, SICK))
    assert {each["name"] for each in found["expected"]} == set(NAMES)
    assert all(each["low"] < each["high"] for each in found["expected"])
    # One holding lets the suction gauge stand under vacuum, the other under the tank.
    alone = diagnosed(capsys, job(tmp_path, SICK, CABIN.replace("foot valve and check at pump", "foot valve only")))
    both, one = (next(e for e in f["expected"] if e["name"] == "suction_standing") for f in (found, alone))
    assert both["high"] < 0.0 < one["low"]


@pytest.mark.law
@pytest.mark.parametrize("missing", SICK)
def test_a_missing_reading_widens_the_answer(tmp_path: Path, capsys: Capture, missing: str) -> None:
    whole = diagnosed(capsys, job(tmp_path, SICK))
    less = diagnosed(capsys, job(tmp_path, {name: value for name, value in SICK.items() if name != missing}))
    nothing = diagnosed(capsys, job(tmp_path, {}))
    # ours: a hundredth is what the draws let an answer wander.
    assert doubt_of(whole) - 0.01 <= doubt_of(less) <= doubt_of(nothing)
    assert doubt_of(nothing) > doubt_of(whole) + 1.0
    assert less["suspects"][0]["chance"] < 1.0 - BESIDE


@pytest.mark.law
def test_no_fault_is_surer_than_what_the_list_may_lack(tmp_path: Path, capsys: Capture) -> None:
    low = {"suction_standing": "12 inHg vacuum", "suction_running": "14 inHg vacuum", "changed": "the lake is down"}
    found = diagnosed(capsys, job(tmp_path, {**SICK, **low, "flow": "8.4 gpm"}))
    assert 0.9 < found["suspects"][0]["chance"] <= 1.0 - BESIDE


@pytest.mark.law
@pytest.mark.parametrize(
    "name, value",
    [
        ("suction_running", "32 inHg vacuum"),
        ("suction_standing", "25 inHg vacuum"),
        ("pressure_standing", "170 psi"),
        ("pressure_running", "190 psi"),
        ("flow", "60 gpm"),
        ("motor_current", "30 A"),
        ("drawdown", "70 gal"),
    ],
)
def test_an_impossible_reading_is_said_to_be_so_and_left_out(
    tmp_path: Path, capsys: Capture, name: str, value: str
) -> None:
    rest = {key: each for key, each in SICK.items() if key != name}
    file = job(tmp_path, {**rest, name: value})
    found = diagnosed(capsys, file)
    assert impossible(found) == [name]
    wrong = found["impossible"][0]
    assert not wrong["low"] <= wrong["read"] <= wrong["high"]
    assert main(["diagnose", file]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert f"! {NAMES[name][0]} " in said
    assert "is impossible: this system, sound or sick, shows " in said
    # The answer is that of the rest.
    assert found["suspects"] == diagnosed(capsys, job(tmp_path, rest))["suspects"]


@pytest.mark.law
def test_a_current_is_weighed_only_where_something_is_known_of_the_motor(tmp_path: Path, capsys: Capture) -> None:
    read = {**SICK, "motor_current": "4 A"}
    assert diagnosed(capsys, job(tmp_path, read))["unweighed"] == []
    dark = CABIN[: CABIN.index("[power]")] + CABIN[CABIN.index("[access]") :]
    found = diagnosed(capsys, job(tmp_path, read, dark))
    assert found["unweighed"] == ["motor_current"]
    assert "[power] motor_current is not given: read it off the motor's plate" in found["why_unweighed"]


@pytest.mark.message
def test_a_reading_and_what_is_sound_stand_apart() -> None:
    assert [name for name, _ in NAMES.values() if len(name) > 26] == []
