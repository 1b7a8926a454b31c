"""Calls and their first answers: what a caller says goes in as a job file, the first sentence comes out."""

from __future__ import annotations

import re
import tomllib
from importlib import resources
from pathlib import Path
from typing import Any, get_args

import pytest

from lakewright.api.check import check
from lakewright.first_answer import Answer, first_answers, signs_of
from lakewright.job.models_shop import Symptom
from lakewright.job.read import read_job_text
from lakewright.report import Report
from lakewright.sources import load_sources
from lakewright.state.assemble import facts_of
from lakewright.stock.load import load_stock

CALL = '[job]\ngrade = "quote"\n'
CHANGED, MINUTE = "what changed lately", "what happens over the first minute after it starts"
RULES: dict[str, Any] = tomllib.loads(
    resources.files("lakewright.job").joinpath("first_answers.toml").read_text(encoding="utf-8")
)

pytestmark = pytest.mark.message


def told(tmp_path: Path, text: str) -> Report:
    """The report on what a caller says."""
    file = tmp_path / "call.toml"
    file.write_text(CALL + text, encoding="utf-8")
    return check(file)


def answers(text: str) -> tuple[Answer, ...]:
    job = read_job_text(CALL + text)
    return first_answers(job, facts_of(job, load_stock()).facts)


def seen(text: str) -> set[str]:
    job = read_job_text(CALL + text)
    return set(signs_of(job, facts_of(job, load_stock()).facts))


def says(words: str) -> str:
    return f'[have.pump]\nsymptom = "{words}"\n'


def visit(date: str, **read: str) -> str:
    fields = "".join(f'{name} = "{value}"\n' for name, value in read.items())
    return f"[[readings]]\ndate = {date}\n{fields}"


# The six calls of the trade.


def test_a_pump_28_ft_over_the_lake_at_sea_level(tmp_path: Path) -> None:
    found = told(tmp_path, '[site]\nelevation = "0 ft"\n[pump]\nheight = "28 ft"\n')
    assert found.first_line.startswith("No suction pump will do this from +28.0 ft")
    assert found.ways_out[0].startswith("move the pump down the bank")
    assert "put the pump in the water" in found.ways_out


HOUSE_UP = """[pump]
height = "6 ft"
[delivery]
height = "6 ft"
tap_height = "66 ft"
cut_in = "30 psi"
cut_out = "50 psi"
"""


def test_a_house_60_ft_up_with_the_switch_at_the_shore(tmp_path: Path) -> None:
    (first,) = told(tmp_path, HOUSE_UP).answers
    assert first.line == "The switch sees 26 psi that never leaves: put switch and tank at the house."
    assert first.seen == ("the highest tap 60 ft over the switch: 30 psi there leaves 4 psi at the tap",)
    assert first.ask == ()


def test_a_switch_at_the_house_sees_nothing_of_the_hill() -> None:
    assert answers(HOUSE_UP.replace('\nheight = "6 ft"\ntap', '\nheight = "60 ft"\ntap')) == ()


def test_a_switch_at_the_shore_of_a_house_near_by_serves() -> None:
    assert answers(HOUSE_UP.replace('"66 ft"', '"40 ft"')) == ()


def test_it_runs_ten_seconds_then_starves(tmp_path: Path) -> None:
    (first,) = told(tmp_path, visit("2026-07-04", first_minute="runs ten seconds then starves")).answers
    assert first.line.startswith("Hose lining or kink")


def test_it_starts_by_itself_at_night(tmp_path: Path) -> None:
    (first,) = told(tmp_path, says("starts by itself at night")).answers
    assert first.line == "Foot valve, and no check at the pump: the tank runs back to the lake."
    assert first.ask == (CHANGED, MINUTE, "whether there is a check valve at the pump")


MAY = visit("2026-05-20", suction_running="9 inHg vacuum")
AUGUST = '[[readings]]\ndate = 2026-08-14\nsuction_running = "12 inHg vacuum"\nfirst_minute = "weak from the start"\n'


def test_good_since_may_weak_in_august_with_vacuum_up(tmp_path: Path) -> None:
    (first,) = told(tmp_path, MAY + AUGUST).answers
    assert first.line == "Clean the screen, or the lake is down."
    assert first.seen == ("vacuum running up 3.0 inHg from 2026-05-20 to 2026-08-14",)


def test_it_lost_prime_once_right_after_spring_start(tmp_path: Path) -> None:
    text = says("lost prime once") + visit("2026-05-20", changed="spring start-up", first_minute="ran well")
    (first,) = told(tmp_path, text).answers
    assert first.line == "Plug, union, clamp, in that order, before anyone takes a boat out."
    assert [step.split()[1] for step in first.do[:2]] == ["priming", "union"]
    assert first.ask == ()


# What tells one answer from the next.


@pytest.mark.parametrize(
    "text, names",
    [
        (says("starts by itself") + '[holding]\narrangement = "foot valve only"\n', ["foot_valve_weeps"]),
        (
            says("starts by itself") + '[holding]\narrangement = "foot valve and check at pump"\n',
            ["both_valves_leak_or_the_house_does"],
        ),
        (
            visit("2026-05-01", suction_standing="40 psi") + '[holding]\narrangement = "check at pump only"\n',
            ["check_at_the_pump_leaks"],
        ),
        (visit("2026-05-01", suction_standing="40 psi") + '[holding]\narrangement = "foot valve only"\n', []),
        ('[[readings]]\nstarves_after = "10 s"\n', ["line_closes_when_the_pump_pulls"]),
        ('[[readings]]\nstarves_after = "10 min"\n', ["nothing_named_yet"]),
        (
            '[[readings]]\nstarves_after = "10 s"\n[suction]\nstock = "PVC, schedule 40, 1-1/4 in"\n',
            ["nothing_named_yet"],
        ),
        ('[[readings]]\ndoes = ["loses prime again and again"]\n', ["joint_or_foot_valve"]),
        (says("lost prime once"), ["nothing_named_yet"]),
        (says("works fine"), []),
        (says("it rattles"), ["nothing_named_yet"]),
        ("", []),
    ],
)
def test_which_answers_are_given(text: str, names: list[str]) -> None:
    assert [answer.name for answer in answers(text)] == names


@pytest.mark.parametrize(
    "running, standing, name",
    [
        ((9.0, 12.0), (6.0, 6.2), "screen_is_dirty"),
        ((9.0, 12.0), (6.0, 9.0), "lake_is_down"),
        ((9.0, 13.0), (6.0, 8.0), "lake_is_down_and_screen_dirty"),
        ((9.0, 9.8), (6.0, 6.0), None),
    ],
)
def test_the_gauge_standing_tells_the_lake_from_the_screen(
    running: tuple[float, float], standing: tuple[float, float], name: str | None
) -> None:
    text = "".join(
        visit(day, suction_running=f"{run} inHg vacuum", suction_standing=f"{stand} inHg vacuum")
        for day, run, stand in zip(("2026-05-20", "2026-08-14"), running, standing, strict=True)
    )
    assert [answer.name for answer in answers(text)] == ([name] if name else [])


def test_the_lake_is_down_by_what_the_standing_vacuum_rose() -> None:
    text = "".join(
        visit(day, suction_running=f"{run} inHg vacuum", suction_standing=f"{stand} inHg vacuum")
        for day, run, stand in (("2026-05-20", 9, 6), ("2026-08-14", 12, 9))
    )
    # 1 inHg is 1.133 ft of water.
    assert "lifts 3.4 ft more" in answers(text)[0].line


@pytest.mark.parametrize(
    "old, new, up",
    [
        ({}, {}, True),
        ({"flow": "8 gpm"}, {"flow": "8 gpm"}, True),
        ({"flow": "8 gpm"}, {"flow": "10 gpm"}, False),
    ],
)
def test_a_vacuum_that_more_flow_explains_is_no_sign(old: dict[str, str], new: dict[str, str], up: bool) -> None:
    text = visit("2026-05-20", suction_running="9 inHg vacuum", **old)
    text += visit("2026-08-14", suction_running="12 inHg vacuum", **new)
    assert ("vacuum up running" in seen(text)) is up


def test_visits_go_by_their_dates_and_not_by_their_order() -> None:
    assert seen(AUGUST + MAY) == seen(MAY + AUGUST)


def test_a_reading_of_years_ago_is_no_yardstick() -> None:
    assert "vacuum up running" not in seen(MAY.replace("2026", "2023") + AUGUST)


def test_an_old_visits_complaint_is_not_answered_again() -> None:
    old = '[[readings]]\ndate = 2025-05-01\ndoes = ["starts by itself"]\n'
    assert answers(old + visit("2026-05-01", suction_running="9 inHg vacuum")) == ()


def test_what_gauges_show_goes_before_what_is_said() -> None:
    found = answers(says("starts by itself at night") + MAY + AUGUST)
    assert [answer.name for answer in found] == ["screen_or_lake", "foot_valve_weeps"]
    assert CHANGED in found[0].ask
    assert CHANGED not in found[1].ask


# The two questions before any gauge.


@pytest.mark.parametrize(
    "visit_says, asks",
    [
        ("", (CHANGED, MINUTE)),
        ('[[readings]]\nchanged = "a new pump"\n', (MINUTE,)),
        ('[[readings]]\nfirst_minute = "the same"\n', (CHANGED,)),
        ('[[readings]]\nchanged = "nothing"\nfirst_minute = "the same"\n', (RULES["asks"]["gauges"],)),
    ],
)
def test_two_things_are_asked_before_gauges(visit_says: str, asks: tuple[str, ...]) -> None:
    (only,) = answers(says("it rattles") + visit_says)
    assert only.ask == asks
    assert only.line == f"What is said so far names no cause: ask {' and '.join(asks)}."


# Words.


@pytest.mark.parametrize(
    "words, sign",
    [
        ("The pump comes on by itself at night", "starts by itself"),
        ("kicks in with no tap open", "starts by itself"),
        ("It runs 10 seconds, then quits", "runs, then starves"),
        ("ran fine for a bit, then nothing", "runs, then starves"),
        ("pressure is weak upstairs", "weaker than it was"),
        ("we lost prime yesterday", "lost prime once"),
        ("it keeps losing its prime", "loses prime again and again"),
        ("lost the prime again", "loses prime again and again"),
        ("no water since Friday", "no water"),
        ("the pump won\u2019t pump", "no water"),
    ],
)
def test_callers_are_understood_in_their_own_words(words: str, sign: str) -> None:
    assert sign in seen(says(words))


@pytest.mark.parametrize(
    "words",
    [
        "it does not start by itself",
        "never comes on at night",
        "it hasn't lost prime",
        "the sprinklers run at night",
        "a strong pump",
        "last spring we painted the shed",
    ],
)
def test_what_is_denied_or_about_something_else_is_no_sign(words: str) -> None:
    assert seen(says(words)) == set()


# The table itself.


def test_every_word_a_reading_may_choose_is_one_that_callers_words_can_mean() -> None:
    assert set(get_args(Symptom)) < set(RULES["words"])


def test_every_answer_can_be_called_up_and_says_where_it_comes_from() -> None:
    text = (Path(__file__).parents[1] / "src" / "lakewright" / "first_answer.py").read_text(encoding="utf-8")
    known = set(RULES["words"]) | set(re.findall(r'"([^"\n]+)"', text)) | {"foot valve only", "flooded"}
    for row in RULES["answer"]:
        signs = {*row["needs"], *row.get("unless", ()), *(s for ask in row.get("ask", ()) for s in ask["unless"])}
        assert signs <= known, row["name"]
        assert row["source"] in load_sources()
        assert row["do"]
        assert row["line"].endswith(".")
