"""The guide is walked as it stands: each answer typed, each command run in turn; each line shown is one that came."""

from __future__ import annotations

import builtins
import re
import shlex
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest

from lakewright.cli import main
from lakewright.job.write import set_values

PAGE = Path(__file__).resolve().parents[1] / "docs" / "guide" / "first_job.md"
TEXT = PAGE.read_text(encoding="utf-8")
BLOCK = re.compile(r"(?m)^```(\w+)\n(.*?)^```", re.DOTALL)
ROW = re.compile(r"(?m)^\| (?!It asks)([^|]+?) \|(?: ([^|]+?))? \|$")


def flat(table: dict[str, object], before: str = "") -> Iterator[tuple[str, str]]:
    """A table's values by their dotted paths."""
    for key, value in table.items():
        if isinstance(value, dict):
            yield from flat(value, f"{before}{key}.")
        else:
            yield f"{before}{key}", str(value)


def came(shown: str, said: str) -> list[str]:
    """Runs of the lines shown, between those that are left out, that did not come, or not in that order."""
    at, missed = 0, []
    for run in re.split(r"(?m)^\.\.\.\n", shown):
        for piece in filter(None, run.strip("\n").split("...")):
            found = said.find(piece.strip(" "), at)
            if found < 0:
                missed.append(piece)
            else:
                at = found + len(piece)
    return missed


@pytest.mark.serial
def test_the_guide_is_what_happens(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Questions are known by how they begin: one that the guide does not answer is left blank, as a person may."""
    answers = dict(ROW.findall(TEXT))
    asked: set[str] = set()

    def typed(words: str) -> str:
        question = next((each for each in answers if words.strip().startswith(each)), "")
        asked.add(question)
        return answers.get(question, "")

    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    monkeypatch.setattr(builtins, "input", typed)
    said = ""
    for kind, block in BLOCK.findall(TEXT):
        if kind == "sh":
            said = ""
            for line in block.splitlines():
                program, *words = shlex.split(line)
                assert program == "lakewright"
                assert main(words) in (0, 1), f"{line}: {capsys.readouterr().err}"
                said += capsys.readouterr().out
        elif kind == "toml":
            job = tmp_path / "alder.toml"
            changed = set_values(job.read_text(encoding="utf-8"), dict(flat(tomllib.loads(block))))
            job.write_text(changed, encoding="utf-8")
        else:
            assert came(block, said) == [], said
    assert asked - {""} == set(answers), "the guide answers what nobody asks"
