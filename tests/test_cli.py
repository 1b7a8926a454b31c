"""The command line: what each command prints, and the code it ends with."""

from __future__ import annotations

import json
import math
import re
from itertools import product
from pathlib import Path
from typing import Any

import pytest

from lakewright import __version__
from lakewright.checks.control import OF_CONTROL
from lakewright.checks.registry import CHECKS
from lakewright.checks.verdict import STATUS_WORDS
from lakewright.cli import main
from lakewright.lines import WIDTH
from tests.job.example import EXAMPLE, example_text

EXAMPLES = [file for file in sorted(EXAMPLE.parent.glob("*.toml")) if "[job]" in file.read_text(encoding="utf-8")]

pytestmark = pytest.mark.message

Capture = pytest.CaptureFixture[str]

FINDING_KEYS = [
    "name",
    "station",
    "status",
    "force",
    "value",
    "limit",
    "unit",
    "margin",
    "case",
    "source",
    "remedy",
    "message",
]


def written(tmp_path: Path, *edits: tuple[str, str]) -> str:
    """The example with some of its words replaced, as a file."""
    text = example_text()
    for old, new in edits:
        assert old in text, f"the example no longer says {old!r}"
        text = text.replace(old, new)
    path = tmp_path / "job.toml"
    path.write_text(text, encoding="utf-8")
    return str(path)


FAILING = ('riser = "24 in"', 'riser = "10 in"')
UNKNOWN = ("length   = { value = ", "# length = { value = ")


def run(capsys: Capture, *arguments: str) -> tuple[int, str, str]:
    """A command's code, and what it wrote to stdout and to stderr."""
    code = main(arguments)
    said = capsys.readouterr()
    return code, said.out, said.err


# Codes


def test_a_job_that_holds_ends_with_0(capsys: Capture) -> None:
    code, out, err = run(capsys, "check", str(EXAMPLE))
    assert (code, err) == (0, "")
    assert out.startswith("Heron Point cabin   build grade, 2026-05-09\n")


@pytest.mark.parametrize("edit", [FAILING, UNKNOWN], ids=["fails", "unknown"])
@pytest.mark.parametrize("form", [[], ["--json"]], ids=["words", "json"])
def test_a_must_that_fails_or_is_unknown_ends_with_1(
    tmp_path: Path, capsys: Capture, edit: tuple[str, str], form: list[str]
) -> None:
    code, out, err = run(capsys, "check", written(tmp_path, edit), *form)
    assert (code, err) == (1, "")
    assert out


def test_a_should_that_fails_ends_with_0(tmp_path: Path, capsys: Capture) -> None:
    own = '[limits.suction_velocity]\nvalue = "1 ft/s"\nreason = "hose by the bed"\n\n[holding]'
    code, out, _ = run(capsys, "check", written(tmp_path, ("[holding]", own)))
    assert code == 0
    assert "x fails     suction runs gently (should)" in out


@pytest.mark.parametrize("command", ["check", "design"])
def test_a_file_that_is_not_there_ends_with_2(tmp_path: Path, capsys: Capture, command: str) -> None:
    path = str(tmp_path / "none.toml")
    code, out, err = run(capsys, command, path)
    assert (code, out) == (2, "")
    assert err == (
        f"1 mistake in the job file\n{path}\n    found   no such file\n    wanted  a job file\n"
        "    do      check the name and the folder\n"
    )


@pytest.mark.parametrize("form", [[], ["--json"]], ids=["words", "json"])
def test_a_file_that_cannot_be_used_ends_with_2_and_all_its_mistakes(
    tmp_path: Path, capsys: Capture, form: list[str]
) -> None:
    path = written(tmp_path, ('cut_in   = "30 psi"', 'cut_in   = "30"'), ('kind = "gravel"', 'kind = "gravle"'))
    code, out, err = run(capsys, "check", path, *form)
    assert (code, out) == (2, "")
    assert err.startswith("2 mistakes in the job file\n")
    places = re.findall(r"^.*job\.toml, line (\d+), (\[.*)$", err, re.MULTILINE)
    lines = Path(path).read_text(encoding="utf-8").splitlines()
    assert {(lines[int(line) - 1].split()[0], key) for line, key in places} == {
        ("cut_in", "[delivery] cut_in"),
        ("kind", "[site.bed] kind"),
    }


def test_a_part_that_is_not_in_stock_ends_with_2(tmp_path: Path, capsys: Capture) -> None:
    path = written(tmp_path, ('tank     = "diaphragm tank, 62 gal"', 'tank     = "diaphragm tank, 63 gal"'))
    code, _, err = run(capsys, "check", path)
    words = Path(path).read_text(encoding="utf-8").splitlines()
    line = 1 + next(number for number, each in enumerate(words) if "63 gal" in each)
    assert code == 2
    assert err.startswith(
        f"1 mistake in the job file\n{path}, line {line}, [delivery] tank\n"
        "    found   'diaphragm tank, 63 gal'\n    wanted  the name of a tank in stock\n"
        "    do      did you mean 'diaphragm tank, 62 gal' or "
    )


@pytest.mark.parametrize("arguments", [["chekc"], [], ["check"], ["check", "a", "b"], ["check", "a", "--yaml"]])
def test_a_command_that_is_not_there_ends_with_2(capsys: Capture, arguments: list[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        main(arguments)
    assert ended.value.code == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.startswith("usage: lakewright")


# Words on the screen


def findings_printed(out: str) -> list[tuple[str, str, str]]:
    """(mark, status, name) of each finding on the screen."""
    words = "|".join(STATUS_WORDS)
    found = re.findall(rf"^([x?!+-]) ({words}) +([a-z][a-z -]*?)(?: \((?:should|note)\))?(?:  |$)", out, re.MULTILINE)
    return [(mark, status, name) for mark, status, name in found]


def what_is_found(out: str) -> str:
    """What a command found, without what it says to type next."""
    return out.partition("\nNext: ")[0]


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_in_brief_what_is_wrong_and_every_caution_stand_on_a_screen_or_two(path: Path, capsys: Capture) -> None:
    code, brief, _ = run(capsys, "check", str(path))
    whole_code, whole, _ = run(capsys, "check", str(path), "--all")
    assert code == whole_code
    # ours: two screens of a small terminal have thirty lines each; whole it takes three times as many and more.
    assert len(brief.splitlines()) <= 60
    assert len(whole.splitlines()) > 2.5 * len(brief.splitlines())
    wrong = ("fails", "unknown", "tight")
    assert [each for each in findings_printed(brief) if each[1] in wrong] == [
        each for each in findings_printed(whole) if each[1] in wrong
    ]
    assert set(findings_printed(brief)) <= set(findings_printed(whole))
    cautions = [line for line in whole.splitlines() if line.startswith("* ")]
    assert [line for line in brief.splitlines() if line.startswith("* ")] == cautions
    assert len(cautions) > 3
    assert brief.splitlines()[-1] == f"All of it: lakewright check {path} --all"
    assert brief.splitlines()[-2].startswith("Next: ")


def test_what_brevity_leaves_out_is_counted(capsys: Capture) -> None:
    _, brief, _ = run(capsys, "check", str(EXAMPLE))
    _, whole, _ = run(capsys, "check", str(EXAMPLE), "--all")
    left = set(findings_printed(whole)) - set(findings_printed(brief))
    hold, rest = (sum(status == each for _, status, _ in left) for each in ("holds", "not asked"))
    assert f"\n  {hold} more hold, {rest} are not asked here.\n" in brief


def test_each_outcome_has_its_next_step(tmp_path: Path, capsys: Capture) -> None:
    said = {}
    for name, edits in (("holds", ()), ("fails", (FAILING,)), ("unknown", (UNKNOWN,))):
        file = written(tmp_path, *edits)
        said[name] = run(capsys, "check", file)[1].splitlines()[-2].replace(file, "FILE")
    assert said == {
        "holds": "Next: lakewright packet FILE, which prints its papers.",
        "fails": 'Next: what "do:" says, in FILE, and check again.',
        "unknown": "Next: say in FILE what is not known, and check again.",
    }


def test_every_check_is_on_the_screen_worst_first(tmp_path: Path, capsys: Capture) -> None:
    flood = next(line for line in example_text().splitlines() if line.startswith("flood = "))
    _, out, _ = run(capsys, "check", written(tmp_path, FAILING, (flood, "")), "--all")
    found = findings_printed(out)
    # What is asked of a controller or a store goes without saying where a switch does the work.
    asked = {check.name for check in CHECKS} - OF_CONTROL
    assert {name for _, _, name in found} == {name.replace("_", " ") for name in asked}
    order = [status for _, status, _ in found]
    assert order == sorted(order, key=["fails", "unknown", "tight", "holds", "not asked"].index)
    assert {(mark, status) for mark, status, _ in found} == {
        ("x", "fails"),
        ("?", "unknown"),
        ("!", "tight"),
        ("+", "holds"),
        ("-", "not asked"),
    }


def test_a_fail_says_in_which_case_and_what_to_do(tmp_path: Path, capsys: Capture) -> None:
    _, out, _ = run(capsys, "check", written(tmp_path, FAILING))
    told = " ".join(out.split("! tight")[0].split())
    assert told.endswith(
        "x fails inlet stands clear of the bed 0.8 ft from the bed to the inlet, at least 1.0 ft in: July weekend"
        " do: use a longer riser, or mud pads that keep the stand from settling"
    )


def test_no_line_is_wider_than_the_screen(tmp_path: Path, capsys: Capture) -> None:
    for edits, more in product(((), (FAILING,), (UNKNOWN,)), ((), ("--all",))):
        _, out, _ = run(capsys, "check", written(tmp_path, *edits), *more)
        out = what_is_found(out)  # a command is typed whole, however long a file's name is
        assert [line for line in out.splitlines() if len(line) > WIDTH] == []
        assert [line for line in out.splitlines() if line != line.rstrip()] == []
        assert "nan" not in re.findall(r"[a-z]+", out)


def test_demo_is_the_example_checked(capsys: Capture) -> None:
    code, out, _ = run(capsys, "demo")
    _, checked, _ = run(capsys, "check", str(EXAMPLE))
    first, _, rest = out.partition("\n\n")
    assert code == 0
    assert first == f"$ lakewright check examples/{EXAMPLE.name}"
    assert what_is_found(rest) == what_is_found(checked)


def test_version_and_help(capsys: Capture) -> None:
    for word, start in (("--version", f"lakewright {__version__}\n"), ("--help", "usage: lakewright ")):
        with pytest.raises(SystemExit) as ended:
            main([word])
        assert ended.value.code == 0
        assert capsys.readouterr().out.startswith(start)


@pytest.mark.parametrize(
    "command",
    [
        "demo",
        "new",
        "check",
        "design",
        "diagnose",
        "stock",
        "waters",
        "packet",
        "survey",
        "reopen",
        "where",
        "serve",
        "explain",
    ],
)
def test_help_of_a_command_says_what_it_does_and_of_each_word_what_it_is(capsys: Capture, command: str) -> None:
    with pytest.raises(SystemExit):
        main(["--help"])
    listed = next(line for line in capsys.readouterr().out.splitlines() if line.startswith(f"    {command} "))
    with pytest.raises(SystemExit):
        main([command, "--help"])
    # Under the usage, which a long command wraps as it likes.
    lines = [line.strip() for line in capsys.readouterr().out.partition("\n\n")[2].splitlines()]
    assert " ".join(listed.split()[1:])[:30] in " ".join(lines)
    assert not {"FILE", "FOLDER", "NAME"} & set(lines)


def test_help_says_what_the_codes_mean(capsys: Capture) -> None:
    with pytest.raises(SystemExit):
        main(["--help"])
    said = " ".join(capsys.readouterr().out.split())
    assert "Exit code: 0 every must holds or is tight, 1 a must fails or is unknown, 2 the file cannot be used." in said
    assert all(command in said for command in ("demo", "check", "design", "explain"))


# JSON


def no_constant(name: str) -> Any:
    raise AssertionError(f"{name} is not JSON")


@pytest.mark.parametrize("edits", [(), (FAILING,), (UNKNOWN,)], ids=["holds", "fails", "unknown"])
def test_json_is_one_object_of_a_known_shape(
    tmp_path: Path, capsys: Capture, edits: tuple[tuple[str, str], ...]
) -> None:
    code, out, _ = run(capsys, "check", written(tmp_path, *edits), "--json")
    found = json.loads(out, parse_constant=no_constant)
    assert list(found) == [
        "job",
        "version",
        "grade",
        "units",
        "date",
        "first_line",
        "window",
        "ways_out",
        "answers",
        "cases",
        "findings",
        "gauges",
        "haul",
        "energy",
        "assumed",
        "told",
        "unjudged",
        "cautions",
        "tests",
        "passed",
        "season",
        "price",
    ]
    assert (found["job"], found["version"], found["grade"]) == ("Heron Point cabin", __version__, "build")
    assert found["passed"] is (code == 0)
    assert list(found["cases"]) == ["running", "standing", "weather", "filling"]
    assert len(found["cases"]["running"]) == 6 * len(found["cases"]["standing"]) == 30
    assert {f["name"] for f in found["findings"]} == {check.name for check in CHECKS}
    for finding in found["findings"]:
        assert list(finding) == FINDING_KEYS
        known = finding["status"] in ("fails", "tight", "holds")
        assert (finding["value"] is not None) is known, finding["name"]
        assert (finding["case"] is not None) is known, finding["name"]
        if known:
            assert math.isfinite(finding["value"])
            assert math.isfinite(finding["margin"])
    keys = ["key", "name", "value", "standing", "why", "from_record"]
    assert all(list(assumed) == keys for assumed in found["assumed"])


def test_json_is_si_whatever_the_job_is_written_in(tmp_path: Path, capsys: Capture) -> None:
    _, us, _ = run(capsys, "check", written(tmp_path), "--json")  # away from the record of its water, as the other is
    _, si, _ = run(capsys, "check", written(tmp_path, ('units = "US"', 'units = "SI"')), "--json")
    for one, other in zip(json.loads(us)["findings"], json.loads(si)["findings"], strict=True):
        alike = [key for key in FINDING_KEYS if key != "message"]
        assert {key: one[key] for key in alike} == {key: other[key] for key in alike}
    assert us != si


# explain


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.name)
def test_explain_says_what_a_check_asks(capsys: Capture, check: Any) -> None:
    code, out, _ = run(capsys, "explain", check.name)
    assert code == 0
    said = " ".join(out.split())
    assert said.startswith(check.name.replace("_", " "))
    for words in (check.question, f"force {check.force}", f"at {check.at}", check.remedy):
        assert words in said, words
    for figure in check.figures:
        assert figure in said, figure
    assert f"{check.source} " in said
    assert [line for line in out.splitlines() if len(line) > WIDTH] == []


@pytest.mark.parametrize("spelling", ["delivers the need", "Delivers-the-need", " delivers_the_need "])
def test_explain_takes_a_name_as_it_is_printed(capsys: Capture, spelling: str) -> None:
    assert run(capsys, "explain", spelling) == run(capsys, "explain", "delivers_the_need")


def lines_of(out: str) -> list[str]:
    """The lines that begin at the edge: one a check."""
    return [line for line in out.splitlines() if not line.startswith(" ")]


def test_explain_alone_lists_every_check(capsys: Capture) -> None:
    code, out, _ = run(capsys, "explain")
    assert code == 0
    rows = [line.split() for line in lines_of(out)]
    assert [name for name, *_ in rows] == [check.name for check in CHECKS]
    assert max(map(len, out.splitlines())) <= WIDTH
    assert len({line.index(f" {row[1]} ") for line, row in zip(lines_of(out), rows, strict=True)}) == 1


def test_explain_of_a_name_that_is_not_there_names_the_nearest(capsys: Capture) -> None:
    code, out, err = run(capsys, "explain", "deliver_the_needs")
    assert (code, out) == (2, "")
    assert err.startswith("found 'deliver_the_needs'; wanted the name of a check; write one of: delivers_the_need, ")
    assert err.count(",") == 2


def test_explain_of_a_name_like_no_other_names_them_all(capsys: Capture) -> None:
    code, _, err = run(capsys, "explain", "zzz")
    assert code == 2
    assert all(check.name in err for check in CHECKS)


@pytest.mark.message
def test_stock_lists_kinds_and_the_parts_of_one(capsys: Capture) -> None:
    code, out, _ = run(capsys, "stock")
    assert code == 0
    assert out.startswith("Kinds: pipe, foot valve, screen, pump,")
    _, out, _ = run(capsys, "stock", "foot valve", "spring")
    assert out.splitlines()[-1].startswith("7 parts. Counter prices. Prices, price dates")
    code, out, _ = run(capsys, "stock", "pump", "jet")
    assert (code, out) == (0, "No pump has jet in its name: use fewer words, or another kind; stock lists the kinds.\n")
    code, _, err = run(capsys, "stock", "nozzle")
    assert (code, err.startswith("found 'nozzle'; wanted a kind of part")) == (2, True)


@pytest.mark.message
def test_waters_lists_what_each_lacks(capsys: Capture) -> None:
    code, out, _ = run(capsys, "waters", str(EXAMPLE.parent / "waters"))
    assert code == 0
    assert "Long Arm Lake   lake, no dam   long_arm_lake.toml" in out
    assert "still lacks  where it is;" in out


@pytest.mark.law
def test_packet_writes_its_sheets_and_says_where(capsys: Capture, tmp_path: Path) -> None:
    code, out, _ = run(capsys, "packet", str(EXAMPLE), "--to", str(tmp_path))
    assert code == 0
    written = [Path(line) for line in out.splitlines()]
    assert [file.name for file in written] == [
        f"{EXAMPLE.stem}-{end}" for end in ("packet.pdf", "quote.pdf", "pick.pdf", "card.pdf", "parts.csv")
    ]
    assert all(file.stat().st_size > 1000 for file in written)


@pytest.mark.law
def test_a_packet_goes_into_a_folder_of_its_job_where_one_stands(
    capsys: Capture, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    code, out, err = run(capsys, "packet", str(EXAMPLE))
    folder = Path(f"{EXAMPLE.stem}-papers")
    assert (code, err) == (0, f"5 files in {folder}\n")
    assert {Path(line).parent for line in out.splitlines()} == {folder}
    assert run(capsys, "packet", str(EXAMPLE)) == (code, out, err)
    quote = folder / f"{EXAMPLE.stem}-quote.pdf"
    quote.write_text("signed", encoding="utf-8")
    code, out, err = run(capsys, "packet", str(EXAMPLE))
    assert (code, out, f"{folder}: found {quote.name}, which" in err) == (2, "", True)
    assert quote.read_text(encoding="utf-8") == "signed"
    assert run(capsys, "packet", str(EXAMPLE), "--over")[0] == 0


@pytest.mark.law
def test_a_job_is_opened_again_from_what_the_packet_kept(capsys: Capture, tmp_path: Path) -> None:
    run(capsys, "packet", str(EXAMPLE), "--to", str(tmp_path), "--also", "everything")
    kept = tmp_path / f"{EXAMPLE.stem}-everything.json"
    code, out, _ = run(capsys, "reopen", str(kept), "--to", str(tmp_path / "again"))
    assert code == 0
    first, water = map(Path, out.splitlines())
    assert (first.name, water.parent.name) == (EXAMPLE.name, "waters")
    again, before = (run(capsys, "check", str(file), "--all")[1] for file in (first, EXAMPLE))
    assert what_is_found(again) == what_is_found(before)
    assert run(capsys, "reopen", str(EXAMPLE), "--to", str(tmp_path))[0] == 2


@pytest.mark.message
def test_a_limit_explains_the_check_that_uses_it(capsys: Capture) -> None:
    assert run(capsys, "explain", "npsh_plus") == run(capsys, "explain", "suction_stays_liquid")
