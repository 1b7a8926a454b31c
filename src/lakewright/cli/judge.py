"""Commands that judge a job file: `check`, `design`, `where`, and `explain`, which says what a check asks."""

from __future__ import annotations

import argparse
from pathlib import Path

from lakewright.choice_lines import choice_lines
from lakewright.cli.printing import FAILED, PASSED, Adder, print_json, print_lines, searched, watched
from lakewright.lines import as_typed, explanation_lines, hung, where_lines
from lakewright.report_lines import brief_lines, next_lines, report_lines


def add_check(command: Adder) -> None:
    """Give the command line `check`."""
    check = command("check", _check, "check a job file, worst first")
    check.add_argument("file", metavar="FILE", type=Path, help="a job file")
    check.add_argument("--all", action="store_true", help="every finding and figure, and not what decides alone")
    check.add_argument("--json", action="store_true", help="print one JSON object, SI")


def add_design(command: Adder) -> None:
    """Give the command line `design`."""
    design = command("design", _design, "choose what a job file leaves open")
    design.add_argument("file", metavar="FILE", type=Path, help="a job file")
    design.add_argument("--to", metavar="NEW", type=Path, help="a new job file, with the pick in place of what is open")
    design.add_argument("--all", action="store_true", help="the whole shortlist, and every finding of the pick")


def add_where(command: Adder) -> None:
    """Give the command line `where`."""
    where = command(
        "where", _where, "where the intake should go: every place along the soundings judged, and why the best is"
    )
    where.add_argument("file", metavar="FILE", type=Path, help="a job file with soundings")


def add_explain(command: Adder) -> None:
    """Give the command line `explain`."""
    explain = command("explain", _explain, "what a check asks, and where its figures come from")
    explain.add_argument("name", metavar="NAME", nargs="?", help="a check; without it, the list of them")


def _check(asked: argparse.Namespace) -> int:
    from lakewright.api.check import check

    found = check(asked.file)
    if asked.json:
        print_json(found.as_json())
    else:
        lines = report_lines(found) if asked.all else brief_lines(found)
        print_lines([*lines, "", *next_lines(found, asked.file, asked.all)])
    return PASSED if found.passed else FAILED


def _design(asked: argparse.Namespace) -> int:
    from time import perf_counter

    from lakewright.api.design import design, write_pick
    from lakewright.api.new import refuse_old

    if asked.to is not None:
        refuse_old(asked.to)
    start = perf_counter()
    with watched() as tell:
        if tell is not None:
            tell("putting the choices together")
        choice = design(asked.file, searched(tell))
    print_lines(choice_lines(choice, perf_counter() - start, asked.all))
    file = as_typed(asked.to or asked.file)
    if asked.to is not None and not choice.job_text:
        print(f"\nNothing is picked, so {file} is not written.")
    elif asked.to is not None:
        write_pick(choice, asked.to)
        passes = "" if choice.pick is not None and choice.pick.passed else ", though it does not pass"
        print(f"\nThe pick is written to {file}{passes}. Next: lakewright packet {file}, which prints its sheet.")
    elif choice.job_text and choice.open_parts:
        print(f"\nNext: lakewright design {file} --to NEW.toml writes the pick as a job file, then packet its sheet.")
    if not asked.all and choice.pick is not None:
        print(f"All of it: lakewright design {as_typed(asked.file)} --all")
    return PASSED if choice.pick is not None and choice.pick.passed else FAILED


def _where(asked: argparse.Namespace) -> int:
    from lakewright.api.where import where

    found = where(asked.file)
    print_lines(where_lines(found))
    return PASSED if found.found.pick.status in ("holds", "tight") else FAILED


def _explain(asked: argparse.Namespace) -> int:
    from lakewright.api.explain import every_check, explain

    if asked.name is None:
        checks = every_check()
        name = max(len(check.name) for check in checks)
        print_lines(line for check in checks for line in hung(f"{check.name:{name}}  {check.force:7}", check.question))
    else:
        print_lines(explanation_lines(explain(asked.name)))
    return PASSED
