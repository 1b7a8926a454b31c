"""The ten questions: their order, what they take for an answer, and the job file they make."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from lakewright.api.check import check
from lakewright.api.new import ASKS, answers_now, go_or_no, job_text, system_of, taken
from lakewright.api.packet import packet
from lakewright.api.questions import QUESTIONS, Ask
from lakewright.errors import AskError, LakewrightError
from lakewright.job.read import read_job_text

CALLER = {
    "site.water": "Long Arm",
    "site.kind": "lake",
    "site.dam": "no",
    "site.elevation": "2000 ft",
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
    assert job.suction.stock == job.pump.stock == job.delivery.tank == "open"
    assert job.job.title == "Long Arm"
    assert read_job_text(job_text({**CALLER, "job.title": "Heron cabin"}, DAY)).job.title == "Heron cabin"


@pytest.mark.law
def test_no_answers_at_all_still_make_a_job_file() -> None:
    assert read_job_text(job_text({}, DAY)).job.grade == "quote"


@pytest.mark.law
@pytest.mark.parametrize("name", ['the "old" lake', "back\\slash", "line\nbreak", "caf\u00e9 \u05d0\u05d1", "]=#[", ""])
def test_any_words_are_kept_as_words(name: str) -> None:
    job = read_job_text(job_text({**CALLER, "site.water": name, "have.there.what": name}, DAY))
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
def test_what_a_go_only_assumes_is_said_with_it() -> None:
    told = {key: said for key, said in CALLER.items() if key not in ("pump.height", "low")}
    go, line, _ = go_or_no(told, DAY)
    assert go
    assert line.endswith("Assumed, since nobody has said: height of the pump, lowest water.")


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
def test_a_lift_near_the_top_of_the_window_is_to_be_measured() -> None:
    go, line, _ = go_or_no({**CALLER, "pump.height": "17 ft"}, DAY)
    assert go
    assert line.endswith("the pump stands at +17.0 ft. A lift told by phone may be 3 ft short: measure it.")


@pytest.mark.message
@pytest.mark.parametrize(
    "key, said, words",
    [
        (
            "site.kind",
            "lak e",
            "found 'lak e'; wanted one of lake / stream / pond / tank / reservoir; did you mean lake?",
        ),
        ("need.baths", "two", "found 'two'; wanted a whole number; write 1, 2, 3"),
        ("low", "-3 ft", 'found "-3 ft"; wanted a length from 0 to 65617 ft; check the number, its sign and its unit'),
        (
            "low",
            "open",
            'found "open"; wanted a length with its unit; the program does not choose this one; write "12 ft"',
        ),
        ("animals", "cows", "found 'cows'; wanted a number and an animal; write 20 beef cows, 3 horses"),
        ("filters", "UV, sieve", "found 'sieve'; wanted one of sediment filter / carbon filter / sand filter /"),
    ],
)
def test_an_answer_that_cannot_be_used_says_what_can(key: str, said: str, words: str) -> None:
    with pytest.raises(LakewrightError) as error:
        taken(ASKS[key], said)
    assert str(error.value).startswith(words)


@pytest.mark.message
def test_an_animal_nobody_knows_is_refused_with_those_that_are_known() -> None:
    with pytest.raises(AskError) as error:
        taken(ASKS["animals"], "3 unicorns")
    assert "wanted" in str(error.value)
    assert "horse" in str(error.value)


@pytest.mark.law
def test_answers_are_taken_short_and_blank_is_nothing() -> None:
    assert taken(ASKS["need.season"], " YEAR ") == "year-round"
    assert taken(ASKS["low"], "  ") is None
    assert taken(ASKS["filters"], "sed, uv") == "sediment filter, UV"
    assert taken(ASKS["animals"], "3 horses and 20 cows") == "3 horses, 20 cows"
    with pytest.raises(AskError):
        taken(ASKS["need.season"], "r")


@pytest.mark.law
def test_none_of_it_is_an_answer_where_there_may_be_none() -> None:
    for key in ("have.there.what", "need.irrigation.area", "animals", "filters", "have.owned.what"):
        assert [taken(ASKS[key], said) for said in ("none", "Nothing", "0")] == [None, None, None]
    assert taken(ASKS["site.weed"], "none") == "none"
    with pytest.raises(LakewrightError):
        taken(ASKS["pump.height"], "none")


@pytest.mark.law
def test_a_word_is_known_with_or_without_its_hyphen() -> None:
    assert taken(ASKS["need.season"], "year round") == "year-round"


@pytest.mark.message
def test_the_deepest_water_is_no_shallower_than_what_was_said_to_be_nearer() -> None:
    with pytest.raises(AskError, match="found '8 ft', but 10 ft of water is 60 ft out"):
        taken(ASKS["deep"], "8 ft", {"ten": "60 ft"})
    assert taken(ASKS["deep"], "8 ft") == "8 ft"
    assert taken(ASKS["deep"], "3 m", {"ten": "12 m"}) == "3 m"


@pytest.mark.message
def test_a_line_shorter_than_it_rises_is_asked_again() -> None:
    told = {"pump.height": "10 ft", "rise": "40 ft"}
    with pytest.raises(AskError, match="no less than the 40 ft between pump and tank's tee; measure the line again"):
        taken(ASKS["delivery.length"], "30 ft", told)
    assert taken(ASKS["delivery.length"], "40 ft", told) == "40 ft"
    assert taken(ASKS["delivery.length"], "30 ft", {"pump.height": "10 ft"}) == "30 ft"


@pytest.mark.law
@pytest.mark.parametrize("ask", ASKS.values(), ids=ASKS)
def test_every_ask_takes_what_its_hint_offers_and_the_file_holds_it(ask: Ask) -> None:
    example = (
        ask.noun.us_example if ask.noun else {"counts": "20 beef cows, 3 horses", "count": "2"}.get(ask.shape.form)
    )
    said = example or (ask.shape.choices[0] if ask.shape.choices else 'a "plain" answer')
    kept = taken(ask, said)
    assert kept is not None
    before = {"pump.height": "12 ft", "deep_at": "150 ft", "deep": "20 ft"}
    job = read_job_text(job_text({**before, ask.key: kept}, DAY))
    assert job != read_job_text(job_text({k: v for k, v in before.items() if k != ask.key}, DAY))


@pytest.mark.law
def test_what_is_asked_after_another_waits_for_it() -> None:
    assert not ASKS["have.there.symptom"].is_asked({})
    assert ASKS["have.there.symptom"].is_asked({"have.there.what": "a pump"})
    assert not ASKS["need.winter_by"].is_asked({"need.season": "year-round"})
    assert ASKS["need.winter_by"].is_asked({"need.season": "hauled"})
    assert not ASKS["power.source_power"].is_asked({"power.supply": "grid"})
    assert ASKS["power.source_power"].is_asked({"power.supply": "generator"})


@pytest.mark.law
def test_the_file_is_in_the_units_of_most_answers() -> None:
    metric = {"pump.height": "4 m", "low": "1 m", "flood": "60 cm", "ten": "18 m", "deep": "26 ft", "deep_at": "45 m"}
    assert system_of(metric) == "SI"
    assert system_of(CALLER) == system_of({}) == system_of({"need.baths": "2"}) == "US"
    job = read_job_text(job_text(metric, DAY))
    assert job.job.units == "SI"
    assert [s.depth.text for s in job.site.soundings] == ["0 m", "3 m", "26 ft"]
    assert job.site.levels.low is not None
    assert job.site.levels.low.text == "-1.00 m"


@pytest.mark.law
def test_heights_told_over_the_pump_become_heights_over_the_water() -> None:
    job = read_job_text(job_text({**CALLER, "tap": "60 ft"}, DAY))
    assert job.delivery.height is not None
    assert job.delivery.tap_height is not None
    assert (job.delivery.height.text, job.delivery.tap_height.text) == ("+22.0 ft", "+72.0 ft")


@pytest.mark.law
def test_what_has_no_place_yet_is_kept_as_a_note() -> None:
    job = read_job_text(job_text({"tap": "60 ft", "deep": "25 ft"}, DAY))
    assert job.job.note == (
        "how far above the pump the highest tap is: 60 ft; the deepest water within 300 ft (90 m): 25 ft"
    )


@pytest.mark.law
def test_a_caller_with_a_sick_pump_is_answered_at_once() -> None:
    sick = {"have.there.what": "a pump", "have.there.symptom": "starts by itself at night"}
    (first,) = answers_now(sick, DAY)
    assert first.line.startswith("Foot valve, and no check at the pump")
    assert answers_now(CALLER, DAY) == ()


@pytest.mark.law
def test_the_record_of_the_water_decides_what_the_caller_does_not_know(tmp_path: Path) -> None:
    folder = tmp_path / "waters"
    folder.mkdir()
    (folder / "long.toml").write_text('name = "Long Arm"\nelevation = "9000 ft"\n', encoding="utf-8")
    told = {**CALLER, "pump.height": "16 ft"}
    del told["site.elevation"]
    assert go_or_no(told, DAY)[0]
    assert not go_or_no(told, DAY, tmp_path / "job.toml")[0]


@pytest.mark.message
def test_ten_answers_make_a_first_line_that_says_something(tmp_path: Path) -> None:
    file = tmp_path / "job.toml"
    file.write_text(job_text(CALLER, DAY), encoding="utf-8")
    assert check(file).first_line == (
        "No pump is chosen yet \u00b7 asked of it 7.0 gpm at 30 psi \u00b7 lift from the lowest water 15.0 ft"
    )
    assert len(packet(file, tmp_path)) == 5


@pytest.mark.law
def test_the_command_asks_all_ten_writes_the_file_and_never_over_another(tmp_path: Path) -> None:
    file = tmp_path / "caller.toml"
    command = [sys.executable, "-m", "lakewright", "new", str(file)]
    done = subprocess.run(command, input="Long Arm\nlake\n", capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    assert "10. Who does the work" in done.stdout
    assert done.stdout.endswith("then design, which chooses suction pipe, pump and tank.\n")
    assert check(file).grade == "quote"
    again = subprocess.run(command, input="", capture_output=True, text=True, check=False)
    assert again.returncode == 2
    assert again.stderr == f"{file} is there already; name another file\n"
    nowhere = [*command[:-1], str(tmp_path / "none" / "job.toml")]
    lost = subprocess.run(nowhere, input="", capture_output=True, text=True, check=False)
    assert (lost.returncode, lost.stderr) == (2, f"{tmp_path / 'none'} is no folder; make it, or name another\n")


@pytest.mark.message
def test_a_bad_answer_is_asked_again_and_the_transcript_shows_both(tmp_path: Path) -> None:
    command = [sys.executable, "-m", "lakewright", "new", str(tmp_path / "caller.toml")]
    done = subprocess.run(command, input="Long Arm\n\nlac\nlake\n", capture_output=True, text=True, check=False)
    lines = done.stdout.splitlines()
    at = next(n for n, line in enumerate(lines) if line.endswith("): lac"))
    assert lines[at + 1].startswith("   found 'lac'; wanted one of lake / stream")
    assert lines[at + 2].endswith("): lake")


@pytest.mark.message
def test_after_a_no_go_the_last_line_sends_nobody_to_design(tmp_path: Path) -> None:
    command = [sys.executable, "-m", "lakewright", "new", str(tmp_path / "bluff.toml")]
    first = ["Long Arm", "", "lake", "no", "", "", "", *[""] * 6, "30 ft", "2 ft"]
    done = subprocess.run(command, input="\n".join(first), capture_output=True, text=True, check=False)
    assert "\nNo go. No suction pump will do this from +30.0 ft" in done.stdout
    assert done.stdout.endswith("after one of the ways out is taken.\n")
