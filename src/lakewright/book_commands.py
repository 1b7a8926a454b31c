"""The commands under `book`: parsed here, run through `api`, and given back as lines; whoever calls prints them."""

from __future__ import annotations

import argparse
import shlex
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING

from lakewright.book_care import Adder, Lines, Run, add_copies, add_rounds
from lakewright.lines import as_typed

if TYPE_CHECKING:
    from lakewright.api.book import BookFile, Signed


def add_commands(parser: argparse.ArgumentParser) -> None:
    """Give a parser the commands of the book. Each leaves what runs it in `does`."""
    commands = parser.add_subparsers(title="commands", metavar="COMMAND", required=True)

    def command(name: str, does: Run, words: str) -> argparse.ArgumentParser:
        made = commands.add_parser(name, help=words, description=f"{words}.")
        made.set_defaults(does=does)
        made.add_argument(
            "--book", metavar="FILE", type=Path, help="which book; the one in a folder of yours if not said"
        )
        made.add_argument("--date", metavar="DAY", help="the day it is put down for, as 2026-08-14; today if not said")
        made.add_argument("--by", metavar="WHO", help="who says so; whoever is logged in if not said")
        return made

    _add_papers(command)
    _add_records(command)
    add_rounds(command)
    add_copies(command)


def run(asked: argparse.Namespace, today: str, login: str, progress: Callable[[int, int], None] | None = None) -> Lines:
    """Run a command of the book.

    Parameters
    ----------
    today, login : what is taken where the command does not say the day and who
    progress : told how many jobs are done, and of how many, where that takes long

    Raises
    ------
    LakewrightError where it cannot be done
    """
    from lakewright.api.book import BookFile, Signed, usual_book

    signed, asked.progress = Signed(asked.by or login, _day(asked.date or today)), progress
    with closing(BookFile(asked.book or usual_book())) as book:
        return list(asked.does(asked, book, signed))


# Papers.


def _add_papers(command: Adder) -> None:
    def kind(parser: argparse.ArgumentParser) -> argparse.ArgumentParser:
        parser.add_argument("--kind", choices=("job", "water", "customer"), default="job", help="job if not said")
        return parser

    add = kind(command("add", _add, "keep a file as a new job, water or customer"))
    add.add_argument("file", metavar="FILE", type=Path, help="a job file, a water's file, or TOML with a name")
    add.add_argument(
        "--as", metavar="NAME", dest="name", default="", help="what the book calls it; its title if not said"
    )
    add.add_argument("--note", default="", help="what to remember of it")
    save = kind(command("save", _save, "keep a further revision; refused where another was kept meanwhile"))
    save.add_argument("file", metavar="FILE", type=Path, help="the edited file")
    save.add_argument("--as", metavar="NAME", dest="name", required=True, help="of what it is a revision")
    save.add_argument("--on", metavar="N", type=int, required=True, help="the revision that was edited")
    save.add_argument("--note", default="", help="why")
    text = kind(command("text", _text, "the text of a revision, the last if not said"))
    text.add_argument("name", metavar="NAME")
    text.add_argument("--revision", metavar="N", type=int, default=0)
    text.add_argument("--to", metavar="FILE", type=Path, help="a new file to write it to, byte by byte")
    listed = kind(command("list", _list, "every job, or water, or customer, and how jobs stand"))
    listed.add_argument("--stage", default="", help="only jobs that stand so")
    search = command("search", _search, "every paper that holds all the words")
    search.add_argument("words", metavar="WORD", nargs="+")
    show = kind(command("show", _show, "all of a job: revisions, how it stood, said and found, parts, prices, visits"))
    show.add_argument("name", metavar="NAME")
    between = kind(
        command("between", _between, "what changed between two revisions, and which findings of a job moved")
    )
    between.add_argument("name", metavar="NAME")
    between.add_argument("revisions", metavar="N", type=int, nargs="*", help="two revisions; the last two if not said")


def _add(asked: argparse.Namespace, book: BookFile, signed: Signed) -> Lines:
    from lakewright.api.book import add

    kept = add(book, asked.file, asked.kind, asked.name, signed, asked.note)
    yield f"{kept.name} is in the book: {kept.words}"


def _save(asked: argparse.Namespace, book: BookFile, signed: Signed) -> Lines:
    from lakewright.api.book import save

    kept = save(book, asked.file, asked.kind, asked.name, asked.on, signed, asked.note)
    yield f"{kept.name}: {kept.words}"


def _text(asked: argparse.Namespace, book: BookFile, _: Signed) -> Lines:
    from lakewright.api.book import revision_text, write_revision

    kept = revision_text(book, asked.kind, asked.name, asked.revision)
    if asked.to is None:
        yield from kept.text.removesuffix("\n").split("\n")
        return
    write_revision(kept, asked.to)
    file, name = as_typed(asked.to), shlex.quote(kept.name)
    yield f"{kept.name}, {kept.words}, is written to {file}."
    yield f"Then: lakewright book save {file} --as {name} --on {kept.revision}"


def _list(asked: argparse.Namespace, book: BookFile, _: Signed) -> Lines:
    from lakewright.api.book import listed
    from lakewright.book_lines import card_lines

    return card_lines(listed(book, asked.kind, asked.stage))


def _search(asked: argparse.Namespace, book: BookFile, _: Signed) -> Lines:
    from lakewright.api.book import search
    from lakewright.book_lines import hit_lines

    words = " ".join(asked.words)
    return hit_lines(search(book, words), words)


def _show(asked: argparse.Namespace, book: BookFile, _: Signed) -> Lines:
    from lakewright.api.book import shown
    from lakewright.book_lines import shown_lines

    found, off = shown(book, asked.kind, asked.name), []
    if found.found:
        from lakewright.api.book_readings import off_by

        off = off_by(found.found)
    return shown_lines(found, off, found.card.units)


def _between(asked: argparse.Namespace, book: BookFile, _: Signed) -> Lines:
    from lakewright.api.book import revision_text
    from lakewright.api.book_checks import between
    from lakewright.book_lines import between_lines
    from lakewright.errors import AskError

    numbers = asked.revisions
    if not numbers:
        last = revision_text(book, asked.kind, asked.name).revision
        numbers = [max(last - 1, 1), last]
    if len(numbers) != 2:
        raise AskError(f"found {len(numbers)} revision; wanted two, or none for the last two")
    first, second = numbers
    return between_lines(between(book, asked.name, first, second, asked.kind))


# What is put down.


def _add_records(command: Adder) -> None:
    mark = command(
        "mark", _mark, "how a job stands now: asked, looked at, priced, said yes, ordered, built, put in, ..."
    )
    mark.add_argument("name", metavar="NAME")
    mark.add_argument("stage", metavar="STAGE", nargs="+")
    mark.add_argument("--note", default="")
    found = command("found", _found, "put down what was said of something, and what was found")
    found.add_argument("name", metavar="NAME")
    found.add_argument("what", metavar="WHAT", nargs="+", help="an unknown, as doubt calls it: depth at the stand")
    found.add_argument("--said", required=True, help="with its unit, as 14 ft")
    found.add_argument("--found", required=True, help="with its unit")
    found.add_argument("--note", default="")
    tuned = command("tuned", _tuned, "by how much what is said is off, over all jobs; doubt takes it as --record")
    tuned.add_argument("--to", metavar="CSV", type=Path, help="where to write it for doubt --record")
    tuned.add_argument("--si", action="store_true", help="print in SI")
    order = command("order", _order, "put down parts ordered: all of the bill, or one part; or what came of them")
    order.add_argument("name", metavar="NAME")
    order.add_argument(
        "part", metavar="PART", nargs="?", help="a part; all that is on the bill and not ordered without it"
    )
    order.add_argument("count", metavar="COUNT", nargs="?", type=float, default=1.0, help="pieces; 1 if not said")
    order.add_argument("--whom", default="", help="from whom")
    for what in ("came", "sent back"):
        order.add_argument(f"--{what.replace(' ', '-')}", action="store_const", const=what, dest="what")
    requote = command("requote", _requote, "price every open job anew: what it costs now, and which picks change")
    requote.add_argument("--own", metavar="SHEET", type=Path, help="the shop's own prices, CSV or XLSX, over ours")
    requote.add_argument("--only-show", action="store_true", help="put no price down")


def _mark(asked: argparse.Namespace, book: BookFile, signed: Signed) -> Lines:
    from lakewright.api.book import Standing, put_down

    stage = " ".join(asked.stage)
    put_down(book, Standing(job=asked.name, stage=stage, note=asked.note, day=signed.day, author=signed.author))
    yield f"{asked.name}: {stage}, {signed.day}"


def _found(asked: argparse.Namespace, book: BookFile, signed: Signed) -> Lines:
    from lakewright.api.book import Found, put_down, shown
    from lakewright.api.book_readings import off_by
    from lakewright.lines import size_words

    what = " ".join(asked.what)
    reading = Found(job=asked.name, what=what, said=asked.said, found=asked.found, note=asked.note, **vars(signed))
    put_down(book, reading)
    off, system = off_by((reading,))[0], shown(book, "job", asked.name).card.units
    yield f"{asked.name}: {what}, off by {size_words(off.off, off.dimension, system)}"


def _tuned(asked: argparse.Namespace, book: BookFile, _: Signed) -> Lines:
    from lakewright.api.book_readings import tuned_of, write_record
    from lakewright.book_lines import tuned_lines

    yield from tuned_lines(tuned_of(book), "SI" if asked.si else "US")
    if asked.to is not None:
        count, file = write_record(book, asked.to), as_typed(asked.to)
        yield f"{count} written to {file}. Next: lakewright doubt JOB --record {file}"


def _order(asked: argparse.Namespace, book: BookFile, signed: Signed) -> Lines:
    from lakewright.api.book import ORDERED, Order, put_down
    from lakewright.api.book_checks import order_all
    from lakewright.book_lines import order_lines
    from lakewright.errors import AskError

    if asked.part is None:
        if asked.what is not None:
            raise AskError(f"which part {asked.what}? Name it, as it was ordered; lakewright book show NAME lists them")
        orders = order_all(book, asked.name, asked.whom, signed)
    else:
        what = asked.what or ORDERED
        orders = [Order(job=asked.name, what=what, part=asked.part, count=asked.count, whom=asked.whom, **vars(signed))]
        put_down(book, orders[0])
    yield from order_lines(orders)
    yield f"{len(orders)} put down"


def _requote(asked: argparse.Namespace, book: BookFile, signed: Signed) -> Lines:
    from lakewright.api.book_checks import requote
    from lakewright.book_lines import requote_lines

    kept = not asked.only_show
    return requote_lines(requote(book, asked.own, signed, kept, asked.progress), kept)


def _day(text: str) -> str:
    from datetime import date

    from lakewright.errors import AskError

    try:
        return date.fromisoformat(text).isoformat()
    except ValueError:
        raise AskError(f"--date: found {text!r}; wanted a day, as 2026-08-14") from None
