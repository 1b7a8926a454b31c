"""Commands that begin: the main job on an example, the ten questions, the survey sheet for a walk over the site."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from lakewright.cli.printing import FAILED, PASSED, Adder, print_lines
from lakewright.lines import answer_lines, as_typed, go_lines
from lakewright.report_lines import brief_lines, next_lines

if TYPE_CHECKING:
    from lakewright.api.questions import Ask


def add_demo(command: Adder) -> None:
    """Give the command line `demo`."""
    command("demo", _demo, "the main job on an example")


def add_new(command: Adder) -> None:
    """Give the command line `new`."""
    new = command("new", _new, "ten questions, a go or no-go, and a job file")
    new.add_argument("file", metavar="FILE", type=Path, help="the job file to be written")


def _demo(_: argparse.Namespace) -> int:
    from lakewright.api.demo import demo

    path, found = demo()
    file = Path("examples") / path.name
    print_lines([f"$ lakewright check {file}", "", *brief_lines(found), "", *next_lines(found, file, whole=False)])
    return PASSED if found.passed else FAILED


def _new(asked: argparse.Namespace) -> int:
    from datetime import date

    from lakewright.api.new import Answers, answers_now, go_or_no, refuse_old, write_new
    from lakewright.api.questions import QUESTIONS

    refuse_old(asked.file)
    today, answers = date.today().isoformat(), Answers()
    print("Leave blank what nobody knows. Every length with its unit, ft or m.")
    last, go = max(n for n, question in enumerate(QUESTIONS) if question.decides), True
    for number, question in enumerate(QUESTIONS):
        print(f"\n{number + 1}. {question.words}")
        for ask in question.asks:
            said = _answer(ask, answers) if ask.is_asked(answers) else None
            if said is not None:
                answers[ask.key] = said
        if question.answers and (told := list(answer_lines(answers_now(answers, today, asked.file)))):
            print_lines(told)
        if number == last:
            go, line, ways = go_or_no(answers, today, asked.file)
            print_lines(go_lines(go, line, ways))
    write_new(asked.file, answers, today)
    file = as_typed(asked.file)
    after = "then design, which chooses suction pipe, pump and tank" if go else "after one of the ways out is taken"
    print(f"\nWritten to {file}. Next: lakewright check {file}, {after}.")
    return PASSED


def _answer(ask: Ask, answers: Mapping[str, str]) -> str | None:
    """Ask until the answer can be used; the end of the input answers nothing."""
    from lakewright.api.new import taken
    from lakewright.errors import LakewrightError

    while True:
        try:
            said = input(f"   {ask.words} ({ask.hint}): ")
            said.encode("utf-8")  # a terminal may hand on bytes that are no text as halves of letters
            if not sys.stdin.isatty():
                print(said)  # nobody has typed it on this screen
            return taken(ask, said, answers)
        except EOFError:
            print()
            return None
        except UnicodeError:
            print("\n   found bytes that are no text in UTF-8; type it again")
        except LakewrightError as error:
            print(f"   {error}")
