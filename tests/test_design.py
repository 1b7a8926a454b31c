"""From ten answers to a job with every part in it: what `design` writes, and says where nothing will do."""

from __future__ import annotations

import os
import pty
import signal
import subprocess
import sys
from dataclasses import replace
from functools import partial
from pathlib import Path

import pytest

from lakewright.api.check import check
from lakewright.api.design import design, write_pick
from lakewright.api.new import job_text
from lakewright.choice_lines import passing_words
from lakewright.cli import main
from lakewright.errors import AskError
from lakewright.job.write import set_values
from tests.test_new import CALLER, DAY

OPEN_PLACES = '\n[stand]\nat = "150 ft"\n', '\n[stand]\nat = "open"\nriser = "open"\n'


def asked(tmp_path: Path, **answers: str) -> Path:
    file = tmp_path / "caller.toml"
    file.write_text(job_text({**CALLER, **answers}, DAY), encoding="utf-8")
    return file


@pytest.mark.law
def test_the_pick_as_a_job_file_is_judged_as_the_pick_was(tmp_path: Path) -> None:
    file = asked(tmp_path)
    text = file.read_text(encoding="utf-8")
    assert OPEN_PLACES[0] in text
    opened = set_values(text.replace(*OPEN_PLACES), {"pump.stock": "jet, shallow, 1 hp"})
    file.write_text(opened, encoding="utf-8")
    choice, made = design(file), tmp_path / "made.toml"
    write_pick(choice, made)
    assert '"open"' not in made.read_text(encoding="utf-8")
    again = check(made)
    assert choice.pick is not None
    assert again.passed == choice.pick.passed
    assert [f.name for f in again.findings] == [f.name for f in choice.pick.findings]
    assert again.priced is not None
    assert choice.pick.priced is not None
    assert choice.pick.priced.quote.total == again.priced.quote.total == choice.shortlist[0].price
    assert [f.margin for f in again.findings] == pytest.approx([f.margin for f in choice.pick.findings], abs=1e-4)


@pytest.mark.message
def test_where_what_is_not_chosen_stands_against_all_none_passes(tmp_path: Path) -> None:
    file = asked(tmp_path)
    choice = design(file)
    assert passing_words(choice).endswith("of them with comfort")
    barred = [replace(row, stands_against="barriers_meet_their_targets") for row in choice.shortlist]
    assert passing_words(replace(choice, shortlist=tuple(barred))) == (
        f"none passes; {choice.passing:,} fail in nothing but what is not chosen here: barriers meet their targets"
    )
    one = (*barred[:-1], choice.shortlist[-1])
    assert passing_words(replace(choice, shortlist=one)) == passing_words(choice)


@pytest.mark.message
def test_what_only_waits_for_design_is_one_line_after_what_fails(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = asked(tmp_path, **{"site.bed.kind": "mud", "site.bed.soft": "36 in"})
    main(["check", str(file), "--all"])
    lines = capsys.readouterr().out.splitlines()
    marks = [line[0] for line in lines[lines.index("") + 1 :] if line[:2] in ("x ", "? ", "! ", "+ ")]
    assert marks == sorted(marks, key="x?!+".index)
    assert marks[0] == "x"
    (unknown,) = (line for line in lines if line.startswith("? "))
    assert unknown.split()[2:5] == ["until", "design", "chooses"]
    assert "delivers the need" in " ".join(" ".join(lines).split())


@pytest.mark.message
def test_each_step_names_the_next_and_the_last_has_a_sheet(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file, made = str(asked(tmp_path)), str(tmp_path / "made.toml")
    assert main(["check", file]) == 1
    assert f"\nNext: lakewright design {file}, which chooses what is open.\n" in capsys.readouterr().out
    assert main(["design", file]) == 0
    assert f"\nNext: lakewright design {file} --to NEW.toml writes the pick as a job file" in capsys.readouterr().out
    assert main(["design", file, "--to", made]) == 0
    assert f"\nThe pick is written to {made}. Next: lakewright packet {made}" in capsys.readouterr().out
    assert main(["check", made]) == 0
    assert f"\nNext: lakewright packet {made}, which prints its papers.\n" in capsys.readouterr().out
    assert main(["design", file, "--to", made]) == 2
    assert capsys.readouterr().err == f"{made} is there already; name another file\n"
    assert main(["packet", made, "--to", str(tmp_path)]) == 0
    assert (tmp_path / "made-packet.pdf").is_file()


@pytest.mark.message
def test_where_no_suction_pump_will_do_design_says_so_with_the_ways_out(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file, made = asked(tmp_path, **{"pump.height": "28 ft"}), tmp_path / "made.toml"
    assert main(["design", str(file), "--to", str(made)]) == 1
    words = " ".join(capsys.readouterr().out.split())
    assert words.startswith("Long Arm No design. No suction pump will do this from +28.0 ft")
    assert "- move the pump down the bank, to +13.8 ft or lower" in words
    assert "What stood in the way" not in words
    assert words.endswith(f"Nothing is picked, so {made} is not written.")
    with pytest.raises(AskError, match="nothing was picked"):
        write_pick(design(file), made)
    assert not made.exists()


EXAMPLE_OPEN = Path(__file__).resolve().parents[1] / "examples" / "year_round_cabin_open.toml"


def test_progress_is_told_on_a_terminal_and_an_interrupt_leaves_nothing_half_written(tmp_path: Path) -> None:
    made, (ours, theirs) = tmp_path / "made.toml", pty.openpty()
    command = [sys.executable, "-m", "lakewright", "design", str(EXAMPLE_OPEN), "--to", str(made)]
    # Whoever runs the tests in the background may have left interrupts ignored, which a child inherits.
    heard = partial(signal.signal, signal.SIGINT, signal.SIG_DFL)
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=theirs, start_new_session=True, preexec_fn=heard
    ) as running:
        os.close(theirs)
        told = ""
        while "circuits" not in told:
            told += os.read(ours, 1000).decode()
        os.kill(running.pid, signal.SIGINT)
        out, _ = running.communicate(timeout=60.0)
    told += os.read(ours, 100_000).decode()
    os.close(ours)
    assert running.returncode == 2
    assert told.startswith("\r\033[Kputting the choices together")
    assert told.rstrip().endswith("stopped")
    assert out == b""
    assert list(tmp_path.iterdir()) == []


def test_the_first_of_the_shortlist_writes_what_the_pick_does(tmp_path: Path) -> None:
    file = asked(tmp_path)
    found = design(file)
    assert found.shortlist
    assert set_values(file.read_text(encoding="utf-8"), found.shortlist[0].writes) == found.job_text
