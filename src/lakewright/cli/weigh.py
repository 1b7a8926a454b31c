"""Commands that weigh what is not known: `doubt`, how sure a job is, and `diagnose`, what is likely wrong with one."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from lakewright.cli.printing import FAILED, PASSED, Adder, print_json, print_lines, searched, watched
from lakewright.lines import as_typed, doubt_lines
from lakewright.sure_lines import sure_lines

if TYPE_CHECKING:
    from lakewright.api.diagnose import Advice


def add_doubt(command: Adder) -> None:
    """Give the command line `doubt`."""
    doubt = command("doubt", _doubt, "how sure a job is, and what to measure before ordering")
    doubt.add_argument("file", metavar="FILE", type=Path, help="a job file")
    doubt.add_argument("--record", metavar="CSV", type=Path, help="the shop's own record: unknown, said, found")
    doubt.add_argument("--second-view", action="store_true", help="Sobol indices of the worst margin too")
    doubt.add_argument("--design", action="store_true", help="choose what is open so that the job is sure enough")
    doubt.add_argument("--to", metavar="NEW", type=Path, help="with --design: a new job file, with that design in it")
    doubt.add_argument("--json", action="store_true", help="print one JSON object, SI")


def add_diagnose(command: Adder) -> None:
    """Give the command line `diagnose`."""
    diagnose = command("diagnose", _diagnose, "what is likely wrong, from a job file's readings and what was said")
    diagnose.add_argument("file", metavar="FILE", type=Path, help="a job file with [[readings]]")
    diagnose.add_argument("--date", metavar="DAY", help="the visit of that day, as 2026-08-14; the last if not said")
    diagnose.add_argument("--json", action="store_true", help="print one JSON object, SI")


def _doubt(asked: argparse.Namespace) -> int:
    if asked.design:
        return _sure_design(asked)
    from lakewright.api.doubt import doubted

    found = doubted(asked.file, asked.record, asked.second_view)
    if asked.json:
        print_json(found.as_json())
    else:
        print_lines(doubt_lines(found))
    return PASSED


def _sure_design(asked: argparse.Namespace) -> int:
    from lakewright.api.new import refuse_old
    from lakewright.api.sure import sure_design, write_sure

    if asked.to is not None:
        refuse_old(asked.to)
    with watched() as tell:
        found = sure_design(asked.file, asked.record, searched(tell))
    if asked.json:
        print_json(found.as_json())
    else:
        print_lines(sure_lines(found))
    if asked.to is not None:
        write_sure(found, asked.to)
        print(f"\nWritten to {as_typed(asked.to)}.")
    return PASSED if found.found is not None else FAILED


def _diagnose(asked: argparse.Namespace) -> int:
    from datetime import date

    from lakewright.api.diagnose import advise
    from lakewright.diagnosis_lines import advice_lines, is_nothing_said
    from lakewright.errors import AskError

    try:
        day = None if asked.date is None else date.fromisoformat(asked.date)
    except ValueError:
        raise AskError(f"--date: found {asked.date!r}; wanted a day, as 2026-08-14") from None
    found = advise(asked.file, day)
    if asked.json:
        print_json(found.as_json())
    else:
        print_lines(advice_lines(found))
        if is_nothing_said(found):
            print_lines(["", *_block_lines(found, asked.file)])
    return PASSED


def _block_lines(found: Advice, file: Path) -> Iterator[str]:
    """The visit of today, to be put at the end of the job file."""
    from datetime import date

    from lakewright.visit_block import visit_block

    yield f"To paste at the end of {as_typed(file)}:"
    yield "where something was read or seen, take the one # away and put that in place of what stands there"
    yield ""
    yield from visit_block(found.found.expected, found.units, date.today())
