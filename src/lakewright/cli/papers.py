"""Commands that write paper: the packet of a job, a job out of a packet's JSON, the survey sheet."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from lakewright.cli.printing import PASSED, Adder, print_lines
from lakewright.lines import as_typed


def add_packet(command: Adder) -> None:
    """Give the command line `packet`."""
    words = "the papers of a job: quote, pick ticket, pump-house card, and what else is asked for"
    packet = command("packet", _packet, words)
    packet.add_argument("file", metavar="FILE", type=Path, help="a job file")
    packet.add_argument("--to", metavar="FOLDER", type=Path, help="where to write; JOB-papers here if not said")
    further = "a further sheet; a name that is none lists them all"
    packet.add_argument("--also", metavar="SHEET", action="append", default=[], help=further)
    packet.add_argument("--all", action="store_true", help="every sheet this job has")
    _add_paper(packet)


def add_reopen(command: Adder) -> None:
    """Give the command line `reopen`."""
    words = "a job and what it reads beside it, out of the JSON that packet --also everything wrote"
    reopen = command("reopen", _reopen, words)
    reopen.add_argument("file", metavar="FILE", type=Path, help="that JSON")
    reopen.add_argument("--to", metavar="FOLDER", type=Path, default=Path(), help="where to write; here if not said")


def add_survey(command: Adder) -> None:
    """Give the command line `survey`."""
    survey = command("survey", _survey, "the survey sheet, one page to fill in on a walk over the site")
    survey.add_argument("file", metavar="FILE", type=Path, nargs="?", help="a job file whose values are filled in")
    survey.add_argument("--to", metavar="FOLDER", type=Path, default=Path(), help="where to write it; here if not said")
    _add_paper(survey)


def _add_paper(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--paper", choices=("letter", "a4"), default="", help="by the units if not said")
    parser.add_argument("--units", choices=("US", "SI"), default="", help="the job's if not said")
    parser.add_argument("--over", action="store_true", help="write over what stands there, whoever made it")


def _packet(asked: argparse.Namespace) -> int:
    from lakewright.api.packet import packet

    written = packet(asked.file, asked.to, asked.also, asked.all, asked.paper, asked.units, asked.over)
    print_lines(map(str, written))
    print(f"{len(written)} files in {as_typed(written[0].parent)}", file=sys.stderr)
    return PASSED


def _reopen(asked: argparse.Namespace) -> int:
    from lakewright.api.everything import reopen

    for written in reopen(asked.file, asked.to):
        print(written)
    return PASSED


def _survey(asked: argparse.Namespace) -> int:
    from lakewright.api.survey import survey

    print(survey(asked.file, asked.to, asked.paper, asked.units, asked.over))
    return PASSED
