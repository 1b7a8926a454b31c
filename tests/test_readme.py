"""The README shows what the demo prints, to the letter.

To write a new printing into it: python -m tests.test_readme
"""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

README = Path(__file__).resolve().parents[1] / "README.md"
BEGIN, END = "<!-- demo -->", "<!-- /demo -->"


def printed_by_demo() -> str:
    """What `make demo` prints where nobody watches: plain letters, eighty wide."""
    hidden = {"COLUMNS", "LINES", "FORCE_COLOR", "CLICOLOR_FORCE", "TTY_COMPATIBLE", "TTY_INTERACTIVE"}
    environment = {name: value for name, value in os.environ.items() if name not in hidden}
    done = subprocess.run(
        [sys.executable, "-c", "from lakewright.cli import main; main()", "demo"],
        capture_output=True,
        encoding="utf-8",
        env=environment | {"NO_COLOR": "1", "TERM": "dumb", "PYTHONIOENCODING": "utf-8"},
        cwd=README.parent,
        timeout=120,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


def block(readme: str) -> str:
    """What stands between the markers."""
    before, _, rest = readme.partition(BEGIN)
    inside, end, _ = rest.partition(END)
    assert before, f"the README has no {BEGIN}"
    assert end, f"the README has no {END}"
    return inside


def fenced(printed: str) -> str:
    """A printing as the README holds it; blanks at a line's end are nothing a reader sees."""
    lines = "\n".join(line.rstrip() for line in printed.strip("\n").split("\n"))
    return f"\n```text\n{lines}\n```\n"


@pytest.mark.golden
def test_readme_shows_what_the_demo_prints() -> None:
    assert block(README.read_text(encoding="utf-8")) == fenced(printed_by_demo())


@pytest.mark.message
def test_readme_names_both_commands_and_what_it_does_not_decide() -> None:
    first_screen = README.read_text(encoding="utf-8").partition("\n## ")[0]
    assert "\nmake demo\n" in first_screen
    assert "\nmake test\n" in first_screen
    assert "does not decide" in first_screen


if __name__ == "__main__":
    text = README.read_text(encoding="utf-8")
    README.write_text(text.replace(block(text), fenced(printed_by_demo()), 1), encoding="utf-8")
