"""The ten questions: their order, what they take for an answer, and the job file they make."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from lakewright.api.check import check
from lakewright.api.new import QUESTIONS, Ask, go_or_no, job_text, taken
from lakewright.errors import AskError, LakewrightError
from lakewright.job.read import read_job_text

CALLER = {
    "site.water": "Long Arm",
    "site.kind": "lake",
    "site.dam": "no",
    "pump.height": "12 ft",
    "low": "3 ft",
    "flood": "2 ft",
    "pump.distance": "30 ft",
    "ten": "60 ft",
    "deep": "25 ft",
    "deep_at": "150 ft",
    "need.baths": "1",
    "rise": "10 ft",
    "delivery.length": "100 ft",
}
DAY = "2026-05-03"


@pytest.mark.message
def test_there_are_ten_questions_and_three_decide() -> None:
    assert len(QUESTIONS) == 10
    assert [n + 1 for n, question in enumerate(QUESTIONS) if question.decides] == [1, 4, 5]


@pytest.mark.law
def test_what_the_answers_make_is_a_job_file() -> None:
    job = read_job_text(job_text(CALLER, DAY))
    assert job.pump.height is not None
    assert job.pump.height.standing == "told"
    assert job.site.levels.low is not None
    assert round(job.site.levels.low.value / 0.3048, 6) == -3.0
    assert [round(s.depth.value / 0.3048, 6) for s in job.site.soundings] == [0.0, 10.0, 25.0]
    assert job.pump.stock == job.delivery.tank == "open"


@pytest.mark.law
def test_no_answers_at_all_still_make_a_job_file() -> None:
    assert read_job_text(job_text({}, DAY)).job.grade == "quote"


@pytest.mark.law
@pytest.mark.parametrize("name", ['the "old" lake', "back\\slash", "line\nbreak", "caf\u00e9 \u05d0\u05d1", "]=#[", ""])
def test_any_words_are_kept_as_words(name: str) -> None:
    job = read_job_text(job_text({**CALLER, "site.water": name, "have.what": name}, DAY))
    assert job.site.water == name.replace("\n", " ")
    assert job.pump.height is not None


@pytest.mark.message
def test_a_pump_within_reach_is_a_go() -> None:
    assert go_or_no(CALLER, DAY) == (
        True,
        "Go on: a suction pump may do this; pump window +3.0 ft to +18.8 ft from the usual water level;"
        " the pump stands at +12.0 ft.",
        (),
    )


@pytest.mark.message
def test_a_pump_too_high_is_a_no_with_ways_out() -> None:
    go, line, ways = go_or_no({**CALLER, "pump.height": "28 ft"}, DAY)
    assert not go
    assert line == "No suction pump will do this from +28.0 ft: from above +18.8 ft none lifts the lowest water here."
    assert ways[0] == "move the pump down the bank, to +13.8 ft or lower"


@pytest.mark.message
def test_a_window_that_is_shut_is_a_no_wherever_the_pump_stands() -> None:
    go, line, _ = go_or_no({**CALLER, "low": "15 ft", "flood": "20 ft"}, DAY)
    assert not go
    assert line.startswith("No suction pump will do this: it would have to stand above +21.0 ft")


@pytest.mark.message
def test_a_pump_in_the_flood_is_a_no() -> None:
    go, line, ways = go_or_no({**CALLER, "pump.height": "1 ft"}, DAY)
    assert not go
    assert (
        line == "The pump would stand in the water: at +1.0 ft, and the highest water with its waves reaches +3.0 ft."
    )
    assert ways == ("set the pump above +3.0 ft",)


@pytest.mark.message
@pytest.mark.parametrize(
    "ask, said, words",
    [
        (
            Ask("x", "", choices=("lake", "stream")),
            "lak e",
            "found 'lak e'; wanted one of lake / stream; did you mean lake?",
        ),
        (Ask("x", "", whole=True), "two", "found 'two'; wanted a whole number; write 1, 2, 3"),
        (
            Ask("x", "", dimension="length"),
            "-3 ft",
            "found '-3 ft'; wanted a distance without a sign; write how far, as in 3 ft",
        ),
    ],
)
def test_an_answer_that_cannot_be_used_says_what_can(ask: Ask, said: str, words: str) -> None:
    with pytest.raises(LakewrightError) as error:
        taken(ask, said)
    assert str(error.value) == words


@pytest.mark.law
def test_answers_are_taken_short_and_blank_is_nothing() -> None:
    assert taken(Ask("x", "", choices=("year-round", "hauled")), " YEAR ") == "year-round"
    assert taken(Ask("x", "", dimension="length"), "  ") is None
    with pytest.raises(AskError):
        taken(Ask("x", "", choices=("some", "stream")), "s")


@pytest.mark.law
def test_the_command_asks_all_ten_writes_the_file_and_never_over_another(tmp_path: Path) -> None:
    file = tmp_path / "caller.toml"
    command = [sys.executable, "-m", "lakewright", "new", str(file)]
    done = subprocess.run(command, input="Long Arm\nlake\n", capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    assert "10. Who does the work" in done.stdout
    assert check(file).grade == "quote"
    again = subprocess.run(command, input="", capture_output=True, text=True, check=False)
    assert again.returncode == 2
    assert again.stderr == f"{file} is there already; name another file\n"
