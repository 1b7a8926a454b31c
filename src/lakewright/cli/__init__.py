"""The command line: parses, calls one function of `api`, prints. Imports nothing heavy before a command runs.

Each command stands in the file of its station: `begin`, `judge`, `weigh`, `papers`, `records`.
"""

from __future__ import annotations

import argparse
import gc
import os
import sys
from collections.abc import Callable, Sequence
from io import TextIOWrapper

from lakewright.cli.begin import add_demo, add_new
from lakewright.cli.judge import add_check, add_design, add_explain, add_where
from lakewright.cli.papers import add_packet, add_reopen, add_survey
from lakewright.cli.printing import UNUSABLE
from lakewright.cli.records import add_book, add_serve, add_stock, add_sweep, add_waters
from lakewright.cli.weigh import add_diagnose, add_doubt


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command. Returns 0 where every must holds or is tight, 1 where one does not, 2 for a file of no use."""
    given = sys.argv[1:] if arguments is None else arguments
    if not given:
        _parser(()).print_help(sys.stderr)
        raise SystemExit(UNUSABLE)
    asked = _parser(given).parse_args(given)
    from lakewright.errors import LakewrightError

    # A command makes much and leaves no rings of it: looking for those as often as is usual takes a thirtieth of it.
    gc.set_threshold(50_000, 20, 50)
    # Looking through all that is installed for a plugin of pydantic, of which there is none, takes 30 ms.
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")

    if isinstance(sys.stdout, TextIOWrapper):
        # A screen or a file that cannot take a sign of ours gets its number, and not an error in its place.
        sys.stdout.reconfigure(errors="backslashreplace")

    try:
        code: int = asked.run(asked)
    except LakewrightError as error:
        print(error, file=sys.stderr)
        return UNUSABLE
    except KeyboardInterrupt:
        print("\nstopped", file=sys.stderr)
        return UNUSABLE
    except BrokenPipeError:
        sys.stderr.close()
        return UNUSABLE
    return code


def _parser(arguments: Sequence[str]) -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="lakewright",
        description="Small surface-water supplies, from the lake to the tap, with the working shown.",
        epilog="Exit code: 0 every must holds or is tight, 1 a must fails or is unknown, 2 the file cannot be used.",
    )
    from lakewright import __version__

    parser.add_argument("--version", action="version", version=f"lakewright {__version__}")
    commands = parser.add_subparsers(title="commands", metavar="COMMAND", required=True)

    def command(name: str, run: Callable[[argparse.Namespace], int], words: str) -> argparse.ArgumentParser:
        made = commands.add_parser(name, help=words, description=f"{words}.")
        made.set_defaults(run=run)
        return made

    for add in (add_demo, add_new, add_check, add_design, add_doubt, add_diagnose, add_stock, add_waters, add_packet):
        add(command)
    for add in (add_reopen, add_survey, add_where, add_sweep, add_serve):
        add(command)
    add_book(command, arguments)
    add_explain(command)
    return parser
