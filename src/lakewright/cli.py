"""The command line: parses, calls one function of `api`, prints. Imports nothing heavy before a command runs."""

from __future__ import annotations

import argparse
import gc
import json
import os
import sys
import textwrap
from collections.abc import Iterable, Mapping, Sequence
from io import TextIOWrapper
from pathlib import Path
from typing import TYPE_CHECKING, Any

from lakewright.choice_lines import choice_lines
from lakewright.lines import (
    WIDTH,
    answer_lines,
    as_typed,
    doubt_lines,
    explanation_lines,
    go_lines,
    hung,
    report_lines,
    stock_lines,
    water_lines,
    where_lines,
)
from lakewright.sure_lines import sure_lines

if TYPE_CHECKING:
    from lakewright.api.questions import Ask

PASSED, FAILED, UNUSABLE = 0, 1, 2


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

    def command(name: str, words: str) -> argparse.ArgumentParser:
        return commands.add_parser(name, help=words, description=f"{words}.")

    demo = command("demo", "the main job on an example")
    demo.set_defaults(run=_demo)
    new = command("new", "ten questions, a go or no-go, and a job file")
    new.add_argument("file", metavar="FILE", type=Path, help="the job file to be written")
    new.set_defaults(run=_new)
    check = command("check", "check a job file, worst first")
    check.add_argument("file", metavar="FILE", type=Path, help="a job file")
    check.add_argument("--json", action="store_true", help="print one JSON object, SI")
    check.set_defaults(run=_check)
    design = command("design", "choose what a job file leaves open")
    design.add_argument("file", metavar="FILE", type=Path, help="a job file")
    design.add_argument("--to", metavar="NEW", type=Path, help="a new job file, with the pick in place of what is open")
    design.set_defaults(run=_design)
    doubt = command("doubt", "how sure a job is, and what to measure before ordering")
    doubt.add_argument("file", metavar="FILE", type=Path, help="a job file")
    doubt.add_argument("--record", metavar="CSV", type=Path, help="the shop's own record: unknown, said, found")
    doubt.add_argument("--second-view", action="store_true", help="Sobol indices of the worst margin too")
    doubt.add_argument("--design", action="store_true", help="choose what is open so that the job is sure enough")
    doubt.add_argument("--to", metavar="NEW", type=Path, help="with --design: a new job file, with that design in it")
    doubt.add_argument("--json", action="store_true", help="print one JSON object, SI")
    doubt.set_defaults(run=_doubt)
    diagnose = command("diagnose", "what is likely wrong, from a job file's readings and what was said")
    diagnose.add_argument("file", metavar="FILE", type=Path, help="a job file with [[readings]]")
    diagnose.add_argument("--date", metavar="DAY", help="the visit of that day, as 2026-08-14; the last if not said")
    diagnose.add_argument("--json", action="store_true", help="print one JSON object, SI")
    diagnose.set_defaults(run=_diagnose)
    stock = command("stock", "what can be had: kinds, or the parts of a kind")
    stock.add_argument("kind", metavar="KIND", nargs="?", help="a kind of part; without it, the list of them")
    stock.add_argument("words", metavar="WORD", nargs="*", help="words the name must hold")
    stock.add_argument("--own", metavar="SHEET", type=Path, help="the shop's own rows, CSV or XLSX, over ours")
    stock.add_argument("--si", action="store_true", help="print in SI")
    stock.set_defaults(run=_stock)
    waters = command("waters", "the waters on record, and what each still lacks")
    folder = "where the records are; waters if not said"
    waters.add_argument("folder", metavar="FOLDER", type=Path, nargs="?", default=Path("waters"), help=folder)
    waters.set_defaults(run=_waters)
    packet = command("packet", "the papers of a job: quote, pick ticket, pump-house card, and what else is asked for")
    packet.add_argument("file", metavar="FILE", type=Path, help="a job file")
    packet.add_argument("--to", metavar="FOLDER", type=Path, default=Path(), help="where to write it; here if not said")
    further = "a further sheet; a name that is none lists them all"
    packet.add_argument("--also", metavar="SHEET", action="append", default=[], help=further)
    packet.add_argument("--all", action="store_true", help="every sheet this job has")
    packet.add_argument("--paper", choices=("letter", "a4"), default="", help="by the units if not said")
    packet.add_argument("--units", choices=("US", "SI"), default="", help="the job's if not said")
    packet.set_defaults(run=_packet)
    reopen = command("reopen", "a job and what it reads beside it, out of the JSON that packet --also everything wrote")
    reopen.add_argument("file", metavar="FILE", type=Path, help="that JSON")
    reopen.add_argument("--to", metavar="FOLDER", type=Path, default=Path(), help="where to write; here if not said")
    reopen.set_defaults(run=_reopen)
    survey = command("survey", "the survey sheet, one page to fill in on a walk over the site")
    survey.add_argument("file", metavar="FILE", type=Path, nargs="?", help="a job file whose values are filled in")
    survey.add_argument("--to", metavar="FOLDER", type=Path, default=Path(), help="where to write it; here if not said")
    survey.add_argument("--paper", choices=("letter", "a4"), default="", help="by the units if not said")
    survey.add_argument("--units", choices=("US", "SI"), default="", help="the job's if not said")
    survey.set_defaults(run=_survey)
    where = command("where", "where the intake should go: every place along the soundings judged, and why the best is")
    where.add_argument("file", metavar="FILE", type=Path, help="a job file with soundings")
    where.set_defaults(run=_where)
    sweep = command("sweep", "many jobs against many scenarios, going on where it was stopped")
    sweep.add_argument("place", metavar="FOLDER", type=Path, help="a folder of job files, or a CSV table of sites")
    sweep.add_argument("--scenarios", metavar="FILE", type=Path, help="what might be otherwise; as it is without one")
    sweep.add_argument("--template", metavar="FILE", type=Path, help="the job file that a table's cells change")
    sweep.add_argument(
        "--to", metavar="FOLDER", type=Path, default=Path("swept"), help="where it is kept; swept if not said"
    )
    sweep.add_argument("--cores", type=int, default=1, help="of this machine; 0 for all, 1 if not said")
    sweep.add_argument("--cluster", metavar="ADDRESS", default="", help="of a Dask scheduler, in place of cores")
    sweep.add_argument("--units", choices=("US", "SI"), default="US", help="of the table; US if not said")
    sweep.add_argument("--no-parquet", action="store_true", help="leave the table of every margin out")
    sweep.set_defaults(run=_sweep)
    serve = command("serve", "the job on a page of this machine, to look at and to edit")
    serve.add_argument("file", metavar="FILE", type=Path, nargs="?", help="a job file; the example without one")
    serve.add_argument("--port", type=int, default=8437, help="where it answers on this machine; 8437 if not said")
    serve.add_argument("--book", metavar="FILE", type=Path, help="where drafts are kept; a folder of yours if not said")
    others = "answer others too, at this address, to who has the token shown"
    serve.add_argument("--listen", metavar="ADDRESS", help=others)
    serve.set_defaults(run=_serve)
    book = command("book", "jobs over the years: keep, revise, find, price anew, visit, invoice; `book COMMAND --help`")
    book.set_defaults(run=_book)
    if "book" in arguments:
        from lakewright.book_commands import add_commands

        add_commands(book)
    explain = command("explain", "what a check asks, and where its figures come from")
    explain.add_argument("name", metavar="NAME", nargs="?", help="a check; without it, the list of them")
    explain.set_defaults(run=_explain)
    return parser


def _demo(_: argparse.Namespace) -> int:
    from lakewright.api.demo import demo

    path, found = demo()
    _print([f"$ lakewright check examples/{path.name}", "", *report_lines(found)])
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
            _print(told)
        if number == last:
            go, line, ways = go_or_no(answers, today, asked.file)
            _print(go_lines(go, line, ways))
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


def _check(asked: argparse.Namespace) -> int:
    from lakewright.api.check import check

    found = check(asked.file)
    if asked.json:
        _print(_json_lines(found.as_json()))
    else:
        _print(report_lines(found))
        if any(finding.waits_for_design for finding in found.findings) and not found.ways_out:
            print(f"\nNext: lakewright design {as_typed(asked.file)}, which chooses what is open.")
    return PASSED if found.passed else FAILED


def _design(asked: argparse.Namespace) -> int:
    from time import perf_counter

    from lakewright.api.design import design, write_pick
    from lakewright.api.new import refuse_old

    if asked.to is not None:
        refuse_old(asked.to)
    start, seen = perf_counter(), sys.stderr.isatty()
    if seen:
        print("putting the choices together", end="", file=sys.stderr, flush=True)
    try:
        choice = design(asked.file, _progress if seen else None)
    finally:
        if seen:
            print("\r\033[K", end="", file=sys.stderr, flush=True)
    _print(choice_lines(choice, perf_counter() - start))
    file = as_typed(asked.to or asked.file)
    if asked.to is not None and not choice.job_text:
        print(f"\nNothing is picked, so {file} is not written.")
    elif asked.to is not None:
        write_pick(choice, asked.to)
        passes = "" if choice.pick is not None and choice.pick.passed else ", though it does not pass"
        print(f"\nThe pick is written to {file}{passes}. Next: lakewright packet {file}, which prints its sheet.")
    elif choice.job_text and choice.open_parts:
        print(f"\nNext: lakewright design {file} --to NEW.toml writes the pick as a job file, then packet its sheet.")
    return PASSED if choice.pick is not None and choice.pick.passed else FAILED


def _doubt(asked: argparse.Namespace) -> int:
    if asked.design:
        return _sure_design(asked)
    from lakewright.api.doubt import doubted

    found = doubted(asked.file, asked.record, asked.second_view)
    if asked.json:
        _print(_json_lines(found.as_json()))
    else:
        _print(doubt_lines(found))
    return PASSED


def _sure_design(asked: argparse.Namespace) -> int:
    from lakewright.api.new import refuse_old
    from lakewright.api.sure import sure_design, write_sure

    if asked.to is not None:
        refuse_old(asked.to)
    seen = sys.stderr.isatty()
    try:
        found = sure_design(asked.file, asked.record, _progress if seen else None)
    finally:
        if seen:
            print("\r\033[K", end="", file=sys.stderr, flush=True)
    if asked.json:
        _print(_json_lines(found.as_json()))
    else:
        _print(sure_lines(found))
    if asked.to is not None:
        write_sure(found, asked.to)
        print(f"\nWritten to {as_typed(asked.to)}.")
    return PASSED if found.found is not None else FAILED


def _json_lines(values: Mapping[str, Any]) -> list[str]:
    return [json.dumps(values, ensure_ascii=False, allow_nan=False, indent=1)]


def _progress(done: int, every: int) -> None:
    words = f"{done:,} of {every:,} circuits" if done < every else "pricing what may be picked"
    print(f"\r\033[K{words}", end="", file=sys.stderr, flush=True)


def _diagnose(asked: argparse.Namespace) -> int:
    from datetime import date

    from lakewright.api.diagnose import advise
    from lakewright.diagnosis_lines import advice_lines
    from lakewright.errors import AskError

    try:
        day = None if asked.date is None else date.fromisoformat(asked.date)
    except ValueError:
        raise AskError(f"--date: found {asked.date!r}; wanted a day, as 2026-08-14") from None
    found = advise(asked.file, day)
    if asked.json:
        _print(_json_lines(found.as_json()))
    else:
        _print(advice_lines(found))
    return PASSED


def _stock(asked: argparse.Namespace) -> int:
    from lakewright.api.stock import every_kind, stock_list

    if asked.kind is None:
        _print(
            textwrap.wrap("Kinds: " + ", ".join(every_kind()), WIDTH, subsequent_indent="  ", break_on_hyphens=False)
        )
        return PASSED
    found = stock_list(asked.kind, " ".join(asked.words), "SI" if asked.si else "US", asked.own)
    if not found.rows and not found.mistakes:
        words = " and ".join(asked.words) or "anything"
        _print([f"No {asked.kind} has {words} in its name: use fewer words, or another kind; stock lists the kinds."])
        return PASSED
    _print(stock_lines(found))
    return UNUSABLE if found.mistakes else PASSED


def _waters(asked: argparse.Namespace) -> int:
    from lakewright.api.waters import waters

    cards = waters(asked.folder)
    _print(line for card in cards for line in water_lines(card))
    return UNUSABLE if any(card.mistakes for card in cards) else PASSED


def _packet(asked: argparse.Namespace) -> int:
    from lakewright.api.packet import packet

    for written in packet(asked.file, asked.to, asked.also, asked.all, asked.paper, asked.units):
        print(written)
    return PASSED


def _reopen(asked: argparse.Namespace) -> int:
    from lakewright.api.everything import reopen

    for written in reopen(asked.file, asked.to):
        print(written)
    return PASSED


def _survey(asked: argparse.Namespace) -> int:
    from lakewright.api.survey import survey

    print(survey(asked.file, asked.to, asked.paper, asked.units))
    return PASSED


def _where(asked: argparse.Namespace) -> int:
    from lakewright.api.where import where

    found = where(asked.file)
    _print(where_lines(found))
    return PASSED if found.found.pick.status in ("holds", "tight") else FAILED


def _sweep(asked: argparse.Namespace) -> int:
    from lakewright.api.sweep import sweep, write_sweep
    from lakewright.sweep_lines import sweep_lines

    seen = sys.stderr.isatty()

    def tell(done: int, every: int) -> None:
        if seen:
            print(f"\r{done:,} of {every:,} jobs", end="", file=sys.stderr, flush=True)

    cores = asked.cores or os.cpu_count() or 1
    record = asked.to / "record.jsonl"
    found = sweep(asked.place, asked.scenarios, record, asked.template, cores, asked.cluster, tell)
    if seen:
        print("\r\033[K", end="", file=sys.stderr, flush=True)
    _print(sweep_lines(found))
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
    seen = sys.stderr.isatty()
    try:
        lines = run(asked, date.today().isoformat(), login, _jobs_done if seen else None)
    finally:
        if seen:
            print("\r\033[K", end="", file=sys.stderr, flush=True)
    _print(lines)
    return PASSED


def _jobs_done(done: int, every: int) -> None:
    print(f"\r\033[K{done} of {every} jobs priced", end="", file=sys.stderr, flush=True)


def _explain(asked: argparse.Namespace) -> int:
    from lakewright.api.explain import every_check, explain

    if asked.name is None:
        checks = every_check()
        name = max(len(check.name) for check in checks)
        _print(line for check in checks for line in hung(f"{check.name:{name}}  {check.force:7}", check.question))
    else:
        _print(explanation_lines(explain(asked.name)))
    return PASSED


def _print(lines: Iterable[str]) -> None:
    sys.stdout.write("\n".join(line.rstrip() for line in lines) + "\n")
