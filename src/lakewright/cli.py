"""The command line: parses, calls one function of `api`, prints. Imports nothing heavy before a command runs."""

from __future__ import annotations

import argparse
import json
import shlex
import sys
import textwrap
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from lakewright.api.design import Choice, Row
    from lakewright.api.explain import Explanation
    from lakewright.api.questions import Ask
    from lakewright.api.stock import StockList
    from lakewright.api.waters import WaterCard
    from lakewright.first_answer import Answer
    from lakewright.report import Finding, Report
    from lakewright.state.gather import Assumed

WIDTH = 100
PASSED, FAILED, UNUSABLE = 0, 1, 2
MARKS = {"fails": "x", "unknown": "?", "tight": "!", "holds": "+", "not asked": "-"}


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command. Returns 0 where every must holds or is tight, 1 where one does not, 2 for a file of no use."""
    asked = _parser().parse_args(arguments)
    from lakewright.errors import LakewrightError

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


def _parser() -> argparse.ArgumentParser:
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
    packet = command("packet", "one sheet: the section of the site to scale, and what decides it")
    packet.add_argument("file", metavar="FILE", type=Path, help="a job file")
    packet.add_argument("--to", metavar="FOLDER", type=Path, default=Path(), help="where to write it; here if not said")
    packet.set_defaults(run=_packet)
    serve = command("serve", "the job on a page of this machine, to look at and to edit")
    serve.add_argument("file", metavar="FILE", type=Path, nargs="?", help="a job file; the example without one")
    serve.add_argument("--port", type=int, default=8437, help="where it answers on this machine; 8437 if not said")
    serve.set_defaults(run=_serve)
    explain = command("explain", "what a check asks, and where its figures come from")
    explain.add_argument("name", metavar="NAME", nargs="?", help="a check; without it, the list of them")
    explain.set_defaults(run=_explain)
    return parser


def _demo(_: argparse.Namespace) -> int:
    from lakewright.api.demo import demo

    path, found = demo()
    _print([f"$ lakewright check examples/{path.name}", "", *_report_lines(found)])
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
        if question.answers and (told := list(_answer_lines(answers_now(answers, today, asked.file)))):
            _print(told)
        if number == last:
            go, line, ways = go_or_no(answers, today, asked.file)
            _print(_go_lines(go, line, ways))
    write_new(asked.file, answers, today)
    file = shlex.quote(str(asked.file))
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
            if not sys.stdin.isatty():
                print(said)  # nobody has typed it on this screen
            return taken(ask, said, answers)
        except EOFError:
            print()
            return None
        except LakewrightError as error:
            print(f"   {error}")


def _go_lines(go: bool, line: str, ways: Sequence[str]) -> Iterator[str]:
    yield ""
    yield from textwrap.wrap(line if go else f"No go. {line}", WIDTH)
    for way in ways:
        yield f"  - {way}"


def _check(asked: argparse.Namespace) -> int:
    from lakewright.api.check import check

    found = check(asked.file)
    if asked.json:
        _print([json.dumps(found.as_json(), ensure_ascii=False, allow_nan=False, indent=1)])
    else:
        _print(_report_lines(found))
        if any(map(_waits_for_design, found.findings)) and not found.ways_out:
            print(f"\nNext: lakewright design {shlex.quote(str(asked.file))}, which chooses what is open.")
    return PASSED if found.passed else FAILED


def _design(asked: argparse.Namespace) -> int:
    from time import perf_counter

    from lakewright.api.design import design, write_pick
    from lakewright.api.new import refuse_old

    if asked.to is not None:
        refuse_old(asked.to)
    start = perf_counter()
    choice = design(asked.file, _progress if sys.stderr.isatty() else None)
    _print(_choice_lines(choice, perf_counter() - start))
    file = shlex.quote(str(asked.to or asked.file))
    if asked.to is not None and not choice.job_text:
        print(f"\nNothing is picked, so {file} is not written.")
    elif asked.to is not None:
        write_pick(choice, asked.to)
        passes = "" if choice.pick is not None and choice.pick.passed else ", though it does not pass"
        print(f"\nThe pick is written to {file}{passes}. Next: lakewright packet {file}, which prints its sheet.")
    elif choice.job_text and choice.open_parts:
        print(f"\nNext: lakewright design {file} --to NEW.toml writes the pick as a job file, then packet its sheet.")
    return PASSED if choice.pick is not None and choice.pick.passed else FAILED


def _progress(done: int, every: int) -> None:
    end = "\r" if done < every else "\r\033[K"
    print(f"{done:,} of {every:,} circuits", end=end, file=sys.stderr, flush=True)


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
    _print(_stock_lines(found))
    return UNUSABLE if found.mistakes else PASSED


def _stock_lines(found: StockList) -> Iterator[str]:
    name = max((len(row.name) for row in found.rows), default=0)
    price = max((len(row.counter) for row in found.rows), default=0)
    for row in found.rows:
        yield from _hung(f"{row.name:{name}}  {row.counter:>{price}}  ", row.detail or " ")
    yield f"{len(found.rows)} parts. Counter prices. {found.note}"
    for mistake in found.mistakes:
        yield ""
        yield from str(mistake).splitlines()


def _waters(asked: argparse.Namespace) -> int:
    from lakewright.api.waters import waters

    cards = waters(asked.folder)
    _print(line for card in cards for line in _water_lines(card))
    return UNUSABLE if any(card.mistakes for card in cards) else PASSED


def _water_lines(card: WaterCard) -> Iterator[str]:
    dam = {"yes": ", behind a dam", "no": ", no dam"}.get(card.dam, "")
    yield f"{card.name}   {card.kind}{dam}   {card.file.name}"
    for mistake in card.mistakes:
        yield from textwrap.indent(str(mistake), "  ").splitlines()
    if card.lacks:
        yield from _hung("  still lacks  ", "; ".join(card.lacks))
    if card.unsigned:
        yield from _hung("  unsigned     ", "; ".join(card.unsigned))
    yield ""


def _packet(asked: argparse.Namespace) -> int:
    from lakewright.api.packet import packet

    for written in packet(asked.file, asked.to):
        print(written)
    return PASSED


def _serve(asked: argparse.Namespace) -> int:
    from lakewright.api.demo import example_path
    from lakewright.web.serve import serve

    file = asked.file or example_path()
    serve(file, asked.port, lambda address: print(f"{file.name} is at {address}; Ctrl-C ends it", flush=True))
    return PASSED


def _explain(asked: argparse.Namespace) -> int:
    from lakewright.api.explain import every_check, explain

    if asked.name is None:
        checks = every_check()
        name = max(len(check.name) for check in checks)
        _print(line for check in checks for line in _hung(f"{check.name:{name}}  {check.force:7}", check.question))
    else:
        _print(_explanation_lines(explain(asked.name)))
    return PASSED


def _print(lines: Iterator[str] | Sequence[str]) -> None:
    sys.stdout.write("\n".join(line.rstrip() for line in lines) + "\n")


def _report_lines(report: Report) -> Iterator[str]:
    from lakewright.gauges import gauge_words

    yield f"{report.title or 'Job'}   {report.grade} grade{', ' + report.date if report.date else ''}"
    yield from textwrap.wrap(report.first_line, WIDTH)
    if report.window:
        yield report.window
    if not report.ways_out:
        yield from gauge_words(report.gauges, report.units)
    for way in report.ways_out:
        yield f"  - {way}"
    yield from _answer_lines(report.answers)
    yield ""
    shown = report.findings
    if report.ways_out:
        shown = tuple(f for f in report.findings if f.name == "pump_stands_in_its_window")
    waiting = [finding for finding in shown if _waits_for_design(finding)]
    said = ""
    for finding in shown:
        if finding not in waiting:
            again = finding.status == "unknown" and finding.message == said
            yield from _finding_lines(finding, "the same" if again else finding.message)
            said = finding.message
        elif finding is waiting[0]:
            names = ", ".join(each.name.replace("_", " ") for each in waiting)
            yield from _hung(f"{MARKS['unknown']} unknown   {f'until design chooses ({len(waiting)})':36}", names)
    if report.ways_out:
        yield ""
        yield "The other checks wait for a place from which a pump can lift."
    yield from _price_lines(report)
    yield from _assumed_lines(report)
    if report.unjudged:
        yield ""
        yield from _hung("Read and kept, judged by no check of this version: ", ", ".join(report.unjudged))
    yield ""
    for caution in report.cautions:
        yield from textwrap.wrap(caution, WIDTH, initial_indent="* ", subsequent_indent="  ")


def _waits_for_design(finding: Finding) -> bool:
    """Whether nothing is missing but what the job leaves to `design`."""
    return finding.status == "unknown" and all(
        why.endswith("is open: design chooses it") for why in finding.message.split("; ")
    )


def _answer_lines(answers: Sequence[Answer]) -> Iterator[str]:
    """What the caller is told first."""
    for answer in answers:
        yield ""
        yield from textwrap.wrap(f"> {answer.line}", WIDTH, subsequent_indent="  ")
        for head, rows in (("seen", answer.seen), ("do", answer.do), ("ask", answer.ask)):
            for number, row in enumerate(rows, start=1):
                mark = f"{number}. " if head == "do" else ""
                yield from _hung(f"    {head if number == 1 else '':6}{mark}", row)


def _price_lines(report: Report) -> Iterator[str]:
    """What it costs, what the price lacks, and what of the parts one should know."""
    if report.priced is None:
        return
    from lakewright.state.quote import summary

    yield ""
    yield "Price"
    for what, much in summary(report.priced.quote):
        first, *rest = textwrap.wrap(what, WIDTH - 16)
        yield f"  {first:{WIDTH - 16}}{much:>12}"
        yield from (f"  {words}" for words in rest)
    for note in report.priced.bill.notes:
        yield from textwrap.wrap(note, WIDTH, initial_indent="  ", subsequent_indent="  ")


def _finding_lines(finding: Finding, message: str) -> Iterator[str]:
    force = "" if finding.force == "must" else f" ({finding.force})"
    name = finding.name.replace("_", " ") + force
    yield from _hung(f"{MARKS[finding.status]} {finding.status:10}{name:36}", message)
    if finding.case and finding.status in ("fails", "tight"):
        yield from _hung(" " * 48, f"in: {finding.case}")
    if finding.status == "fails":
        yield from _hung(" " * 48, f"do: {finding.remedy}")


def _hung(head: str, text: str) -> list[str]:
    """Text beside a head, its further lines hung under its first."""
    return textwrap.wrap(text, WIDTH, initial_indent=head, subsequent_indent=" " * len(head), break_on_hyphens=False)


def _assumed_lines(report: Report) -> Iterator[str]:
    record = [a for a in report.assumed if a.from_record]
    taken = [a for a in report.assumed if not a.from_record]
    quoted = ", to be confirmed before build" if report.grade == "quote" else ""
    for head, rows in (("From the water's record", record), (f"Assumed{quoted}", taken)):
        if rows:
            yield ""
            yield head
        for row in rows:
            yield from _taken_lines(row, report.units)


def _taken_lines(taken: Assumed, system: str) -> Iterator[str]:
    from lakewright import units

    why = f"{taken.why} \u00b7 {taken.place}" if taken.place else taken.why
    if taken.text:
        yield from _hung(f"  {taken.name:34}", f"{taken.text}: {why}")
    else:
        yield from _hung(f"  {taken.name:34}{units.show(taken.value, taken.kind, system):>10}   ", why)


def _explanation_lines(found: Explanation) -> Iterator[str]:
    check = found.check
    yield check.name.replace("_", " ")
    yield from textwrap.wrap(check.question, WIDTH)
    yield ""
    yield f"force    {check.force}"
    yield f"at       {check.at}"
    yield f"judged   in every case of the list: {check.cases}"
    yield from _hung("if not   ", check.remedy)
    yield ""
    for figure in found.figures:
        text = f"{figure.name:26} {figure.text:>10}   {figure.why} ({figure.source})"
        yield from textwrap.wrap(text, WIDTH, subsequent_indent=" " * 40)
    yield ""
    for kind in ("centrifugal", "jet"):
        yield from _hung(f"rests on, {kind + ':':13}", _by_table(check.facts_needed(kind)) or "not asked of one")
    yield ""
    for source in found.sources:
        yield from _hung(f"{source.id:18}", f"{source} ({source.standing})")


def _by_table(needs: Sequence[str]) -> str:
    """Facts gathered under their tables."""
    tables: dict[str, list[str]] = {}
    for need in needs:
        table, _, field = need.partition(".")
        tables.setdefault(table, []).append(field)
    return "; ".join(f"{table} {', '.join(fields)}" for table, fields in tables.items())


def _choice_lines(choice: Choice, seconds: float) -> Iterator[str]:
    if choice.ways_out:
        yield from textwrap.wrap(f"{choice.title or 'Job'}   No design. {choice.why}", WIDTH)
        yield from (f"  - {way}" for way in choice.ways_out)
        return
    opened = ", ".join(choice.open_parts) or "nothing"
    yield f"{choice.title or 'Job'}   open: {opened}"
    yield f"{choice.choices:,} choices, {choice.circuits:,} different circuits, {seconds:.1f} s"
    yield f"{choice.passing:,} pass, {choice.holding:,} of them with comfort"
    yield ""
    yield f"The pick: {choice.why}"
    rows = choice.shortlist or choice.near_misses
    if rows:
        yield "Prices are invented and count inlet, pipe, pump and tank alone. Margin 1 is comfort, 0 the bare limit."
        yield ""
    for number, row in enumerate(rows, start=1):
        yield from _row_lines(number, row, choice.units)
    if choice.ways:
        yield ""
        heads = ("failed or unknown", "alone in the way") if choice.exact else ("failed, at least", "alone, at least")
        yield f"{'What stood in the way':40} {heads[0]:>17} {heads[1]:>17}"
        for way in choice.ways:
            force = "" if way.force == "must" else f" ({way.force})"
            yield f"  {way.check.replace('_', ' ') + force:40} {way.failed:>15,} {way.alone:>17,}"
    if choice.pick is not None:
        yield ""
        yield from _report_lines(choice.pick)


def _row_lines(number: int, row: Row, system: str) -> Iterator[str]:
    from lakewright import units

    # A hair under the limit is shown as such, never as minus nothing.
    short = -0.005 < row.margin < 0.0
    margin = "margin unknown" if row.margin != row.margin else f"margin {row.margin:{'.1g' if short else '.2f'}}"
    price, call_back = (units.show(cents, "money", system) for cents in (row.price, row.call_back))
    against = f", against it: {row.stands_against.replace('_', ' ')}" if row.stands_against else ""
    yield f"{number}. {price} and {call_back} of expected call-back, {margin}{against}"
    parts = "; ".join(f"{name} {label}" for name, label in row.parts)
    yield from textwrap.wrap(parts, WIDTH, initial_indent="   ", subsequent_indent="   ")
