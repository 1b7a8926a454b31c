"""Every command in README and docs is one that can be typed, and every block of them is run, from its first line on."""

from __future__ import annotations

import os
import re
import shlex
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

from lakewright.cli import _parser
from lakewright.job.read import read_job_text
from lakewright.job.scenarios import read_scenarios_text

ROOT = Path(__file__).resolve().parents[1]
PAGES = [ROOT / "README.md", ROOT / "CONTRIBUTING.md", *sorted((ROOT / "docs").rglob("*.md"))]
BLOCK = re.compile(r"(?m)^```(\w*)\n(.*?)^```", re.DOTALL)

NOT_RUN = {
    "make": "each installs what it needs, or is the whole suite that holds this test; continuous integration runs them",
    "pip": "installs",
}
"""First words of lines that are not run here, and why."""


GUIDE = "docs/guide/"
"""Its pages are walked as a whole, each block after the one before, by test_guide.py."""


def blocks(kind: str) -> list[tuple[str, str]]:
    """Blocks of a kind, each with its page."""
    found = []
    for page in PAGES:
        for each in BLOCK.finditer(page.read_text(encoding="utf-8")):
            if each[1] == kind and GUIDE not in page.as_posix():
                found.append((page.relative_to(ROOT).as_posix(), each[2]))
    return found


def lines_of(block: str) -> list[list[str]]:
    return [words for line in block.replace("\\\n", " ").splitlines() if (words := shlex.split(line, comments=True))]


def typed_at(words: list[str]) -> str:
    """What is typed at a command that asks."""
    return "Long Arm\n\nlake\n" if words[1] == "new" else ""


def prepared(folder: Path, run: object) -> None:
    """What a block takes to be there: the examples, and a book in which a job of the README has its fourth revision."""
    (folder / "examples").symlink_to(ROOT / "examples")
    job = folder / "heron.toml"
    text = (ROOT / "examples" / "year_round_cabin.toml").read_text(encoding="utf-8")
    for number in range(1, 5):
        job.write_text(f"{text}# {number}\n", encoding="utf-8")
        more = [] if number == 1 else ["--on", str(number - 1)]
        name = ["--as", "Heron Point cabin"]
        run(["lakewright", "book", "add" if number == 1 else "save", str(job), *name, *more])  # type: ignore[operator]
    job.unlink()


@pytest.mark.serial
@pytest.mark.parametrize("page, block", blocks("sh"), ids=lambda each: each if each.endswith(".md") else "")
def test_a_block_of_commands_runs_to_its_end(page: str, block: str, tmp_path: Path) -> None:
    environment = {**os.environ, "XDG_DATA_HOME": str(tmp_path / "data"), "PYTHONIOENCODING": "utf-8"}

    def run(words: list[str]) -> None:
        done = subprocess.run(
            [sys.executable, "-m", *words],
            input=typed_at(words),
            capture_output=True,
            encoding="utf-8",
            env=environment,
            cwd=tmp_path,
            check=False,
            timeout=300,
        )
        # A job that does not pass is none of the command's faults.
        assert done.returncode in (0, 1), f"{page}: {shlex.join(words)}\n{done.stdout[-500:]}{done.stderr}"
        assert "Traceback" not in done.stderr, done.stderr

    rows = [words for words in lines_of(block) if words[0] not in NOT_RUN]
    assert all(words[0] == "lakewright" for words in rows), f"{page}: say in NOT_RUN why it is not run"
    if any(words[1] == "book" for words in rows):
        prepared(tmp_path, run)
    for words in rows:
        run(words)


INLINE = sorted(
    {
        " ".join(words.split())
        for page in PAGES
        for words in re.findall(r"`lakewright\s([^`]+)`", BLOCK.sub("", page.read_text(encoding="utf-8")))
    }
)


def is_whole(words: str) -> bool:
    """Whether it is more than the name of a command, and says no `COMMAND` for any of them."""
    return " " in words and not re.search(r"\bCOMMAND\b|\[|\.\.\. ", words)


@pytest.mark.parametrize("words", [words for words in INLINE if is_whole(words)])
def test_a_command_in_a_sentence_is_one_that_there_is(words: str) -> None:
    arguments = shlex.split(words)
    assert _parser(arguments).parse_args(arguments).run


@pytest.mark.parametrize("page, block", blocks("toml"), ids=[page for page, _ in blocks("toml")])
def test_a_block_of_a_file_is_read_as_what_it_is(page: str, block: str) -> None:
    if "[[scenario]]" in block:
        assert len(read_scenarios_text(block)) > 1
    elif block.startswith("["):
        assert read_job_text(block)
    else:
        # A block may show several ways of writing one key, a line each.
        for line in block.splitlines():
            assert tomllib.loads(line) or not line.partition("#")[0].strip(), page


if __name__ == "__main__":
    for command, why in NOT_RUN.items():
        print(f"{command}: not run: {why}")
