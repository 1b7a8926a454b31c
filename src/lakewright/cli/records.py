"""Commands over many jobs and what is on record: `stock`, `waters`, `book`, `sweep`, and `serve`, a job on a page."""

from __future__ import annotations

import argparse
import os
import textwrap
from collections.abc import Sequence
from pathlib import Path

from lakewright.cli.printing import PASSED, UNUSABLE, Adder, counted, print_lines, watched
from lakewright.lines import WIDTH, stock_lines, water_lines


def add_stock(command: Adder) -> None:
    """Give the command line `stock`."""
    stock = command("stock", _stock, "what can be had: kinds, or the parts of a kind")
    stock.add_argument("kind", metavar="KIND", nargs="?", help="a kind of part; without it, the list of them")
    stock.add_argument("words", metavar="WORD", nargs="*", help="words the name must hold")
    stock.add_argument("--own", metavar="SHEET", type=Path, help="the shop's own rows, CSV or XLSX, over ours")
    stock.add_argument("--si", action="store_true", help="print in SI")


def add_waters(command: Adder) -> None:
    """Give the command line `waters`."""
    waters = command("waters", _waters, "the waters on record, and what each still lacks")
    folder = "where the records are; waters if not said"
    waters.add_argument("folder", metavar="FOLDER", type=Path, nargs="?", default=Path("waters"), help=folder)


def add_sweep(command: Adder) -> None:
    """Give the command line `sweep`."""
    sweep = command("sweep", _sweep, "many jobs against many scenarios, going on where it was stopped")
    sweep.add_argument("place", metavar="FOLDER", type=Path, help="a folder of job files, or a CSV table of sites")
    sweep.add_argument("--scenarios", metavar="FILE", type=Path, help="what might be otherwise; as it is without one")
    sweep.add_argument("--template", metavar="FILE", type=Path, help="the job file that a table's cells change")
    kept = "where it is kept; swept if not said"
    sweep.add_argument("--to", metavar="FOLDER", type=Path, default=Path("swept"), help=kept)
    sweep.add_argument("--cores", type=int, default=1, help="of this machine; 0 for all, 1 if not said")
    sweep.add_argument("--cluster", metavar="ADDRESS", default="", help="of a Dask scheduler, in place of cores")
    sweep.add_argument("--units", choices=("US", "SI"), default="US", help="of the table; US if not said")
    sweep.add_argument("--no-parquet", action="store_true", help="leave the table of every margin out")


def add_serve(command: Adder) -> None:
    """Give the command line `serve`."""
    serve = command("serve", _serve, "the job on a page of this machine, to look at and to edit")
    serve.add_argument("file", metavar="FILE", type=Path, nargs="?", help="a job file; the example without one")
    serve.add_argument("--port", type=int, default=8437, help="where it answers on this machine; 8437 if not said")
    serve.add_argument("--book", metavar="FILE", type=Path, help="where drafts are kept; a folder of yours if not said")
    others = "answer others too, at this address, to who has the token shown"
    serve.add_argument("--listen", metavar="ADDRESS", help=others)


def add_book(command: Adder, arguments: Sequence[str]) -> None:
    """Give the command line `book`, and its own commands where it is asked for."""
    words = "jobs over the years: keep, revise, find, price anew, visit, invoice; `book COMMAND --help`"
    book = command("book", _book, words)
    if "book" in arguments:
        from lakewright.book_commands import add_commands

        add_commands(book)


def _stock(asked: argparse.Namespace) -> int:
    from lakewright.api.stock import every_kind, stock_list

    if asked.kind is None:
        print_lines(
            textwrap.wrap("Kinds: " + ", ".join(every_kind()), WIDTH, subsequent_indent="  ", break_on_hyphens=False)
        )
        return PASSED
    found = stock_list(asked.kind, " ".join(asked.words), "SI" if asked.si else "US", asked.own)
    if not found.rows and not found.mistakes:
        words = " and ".join(asked.words) or "anything"
        print_lines(
            [f"No {asked.kind} has {words} in its name: use fewer words, or another kind; stock lists the kinds."]
        )
        return PASSED
    print_lines(stock_lines(found))
    return UNUSABLE if found.mistakes else PASSED


def _waters(asked: argparse.Namespace) -> int:
    from lakewright.api.waters import waters

    cards = waters(asked.folder)
    print_lines(line for card in cards for line in water_lines(card))
    return UNUSABLE if any(card.mistakes for card in cards) else PASSED


def _sweep(asked: argparse.Namespace) -> int:
    from lakewright.api.sweep import sweep, write_sweep
    from lakewright.sweep_lines import sweep_lines

    cores = asked.cores or os.cpu_count() or 1
    record = asked.to / "record.jsonl"
    with watched() as tell:
        told = counted(tell, "jobs")
        found = sweep(asked.place, asked.scenarios, record, asked.template, cores, asked.cluster, told)
    print_lines(sweep_lines(found))
    for file in write_sweep(found, asked.to, asked.units, not asked.no_parquet):
        print(f"wrote {file}")
    return PASSED


def _serve(asked: argparse.Namespace) -> int:
    from lakewright.api.demo import example_path
    from lakewright.api.drafts import usual_book
    from lakewright.web.serve import HOST, serve

    file = asked.file or example_path()

    def ready(address: str) -> None:
        print(f"{file.name} is at {address}; Ctrl-C ends it", flush=True)
        if asked.listen is not None:
            words = (
                "Whoever has this address, token and all, may read and change the drafts; nothing hides it on the way."
            )
            print(words, flush=True)

    beside = None if asked.file else Path.cwd()
    book, listen = asked.book or usual_book(), HOST if asked.listen is None else asked.listen
    serve(file, asked.port, ready, book, asked.file is not None, beside, listen)
    return PASSED


def _book(asked: argparse.Namespace) -> int:
    from datetime import date
    from getpass import getuser

    from lakewright.book_commands import run

    try:
        login = getuser()
    except (OSError, KeyError):
        login = "unknown"
    with watched() as tell:
        lines = run(asked, date.today().isoformat(), login, counted(tell, "jobs priced"))
    print_lines(lines)
    return PASSED
