"""The doors through which something from outside comes in, each as one function of the bytes and a folder to itself.

A door may let in or refuse. Anything but a LakewrightError is found; so is an end with such an error in the middle of
`new`, an outcome of a sweep that names an error of the program, or an answer of the page of 500 or more.
"""

from __future__ import annotations

import csv
import io
import json
import re
import shutil
import sys
import zipfile
from collections.abc import Callable, Iterator
from contextlib import closing, redirect_stderr, redirect_stdout, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from lakewright.cli import main
from lakewright.errors import AskError
from tests.apart import run_apart

ROOT = Path(__file__).resolve().parents[2]
EXAMPLES = ROOT / "examples"
CORPUS = ROOT / "tests" / "corpus"
HOST = "127.0.0.1:8437"


class Found(Exception):
    """A door that let out what it should not."""


@dataclass(frozen=True)
class Door:
    """A door.

    name : that of its folder in the corpus, which holds sound ones and those that were once found to break it
    enter : takes the bytes in; may raise LakewrightError and nothing else
    also : further sound files, outside the corpus
    """

    name: str
    enter: Callable[[bytes, Path], None]
    also: tuple[Path, ...] = ()

    def corpus(self) -> list[Path]:
        """Its files in the corpus."""
        return sorted(file for file in (CORPUS / self.name).glob("*") if file.is_file())

    def seeds(self) -> list[bytes]:
        """What rough handling begins with."""
        return [file.read_bytes() for file in (*self.corpus(), *self.also)]


def ran(*arguments: str | Path, typed: str = "") -> tuple[int, str, str]:
    """A command as it is run where the screen takes UTF-8: its end, and what it printed."""
    out, err = (io.TextIOWrapper(io.BytesIO(), encoding="utf-8", newline="") for _ in range(2))
    # Some terminals refuse bytes that are no text, others hand them on as halves of letters.
    refuses = len(typed) % 2 == 0
    bytes_typed = io.BytesIO(typed.encode("utf-8", "surrogateescape"))
    errors = "strict" if refuses else "surrogateescape"
    before, sys.stdin = sys.stdin, io.TextIOWrapper(bytes_typed, encoding="utf-8", errors=errors)
    try:
        with redirect_stdout(out), redirect_stderr(err):
            code = main([str(each) for each in arguments])
            out.flush()
    finally:
        sys.stdin = before
    err.flush()
    texts = [stream.detach().getvalue().decode("utf-8") for stream in (out, err)]
    return code, texts[0], texts[1]


def _refused(code: int, said: str) -> None:
    """The refusal of a command, as the error that it was."""
    if code == 2:
        raise AskError(said)


def _text(data: bytes) -> str:
    return data.decode("utf-8", "surrogateescape")


# One function a door.


def job(data: bytes, folder: Path) -> None:
    """A job file, checked, and drawn."""
    from lakewright.api.read import read
    from lakewright.api.report import report_on
    from lakewright.api.site import site_of
    from lakewright.documents.section import section
    from lakewright.documents.sheet import SECTION_SIZE
    from lakewright.documents.svg import svg

    file = folder / "job.toml"
    file.write_bytes(data)
    code, _, said = ran("check", file)
    _refused(code, said)
    ran("check", file, "--json")
    read_in, stock, assembly = read(file)
    found = report_on(read_in, assembly, stock=stock)
    svg(section(site_of(read_in, assembly.facts), found.findings, *SECTION_SIZE).scene)


def visit(data: bytes, folder: Path) -> None:
    """A job file with visits, diagnosed."""
    file = folder / "job.toml"
    file.write_bytes(data)
    code, _, said = ran("diagnose", file)
    _refused(code, said)
    ran("diagnose", file, "--json")


def water(data: bytes, folder: Path) -> None:
    """The record of a water, listed, and met by a job beside it."""
    (folder / "waters").mkdir(exist_ok=True)
    (folder / "waters" / "long_arm_lake.toml").write_bytes(data)
    shutil.copy(EXAMPLES / "year_round_cabin.toml", folder / "job.toml")
    ran("waters", folder / "waters")
    _refused(*ran("check", folder / "job.toml")[::2])


def _beside(field: str, name: str) -> Callable[[bytes, Path], None]:
    def enter(data: bytes, folder: Path) -> None:
        kind = name
        if data.startswith(b"PK"):
            kind = "measured.xlsx"
        elif data.lstrip()[:1] == b"<":
            kind = "measured.gpx"
        (folder / kind).write_bytes(data)
        grade = '[job]\nunits = "US"\ngrade = "quote"\n'
        (folder / "job.toml").write_text(f'{grade}[site]\nkind = "lake"\n{field} = "{kind}"\n', encoding="utf-8")
        for command in ("check", "where"):
            code, _, said = ran(command, folder / "job.toml")
            if command == "check":
                _refused(code, said)

    return enter


def packet(data: bytes, folder: Path) -> None:
    """A job file, printed: every sheet there is."""
    from lakewright.api.sheets import SHEETS

    file = folder / "job.toml"
    file.write_bytes(data)
    also = [word for name in SHEETS for word in ("--also", name)]
    _refused(*ran("packet", file, "--to", folder, *also)[::2])


soundings = _beside("soundings_file", "measured.csv")
levels = _beside("levels.record", "measured.csv")


def stock(data: bytes, folder: Path) -> None:
    """A shop's own sheet over ours."""
    from lakewright.api.stock import stock_list
    from lakewright.lines import stock_lines

    file = folder / ("own.xlsx" if data.startswith(b"PK") else "own.csv")
    file.write_bytes(data)
    found = stock_list(own=file)
    list(stock_lines(found))
    if found.mistakes:
        raise AskError(str(found.mistakes[0]))


def sheet(data: bytes, folder: Path) -> None:
    """The same from a spreadsheet: the cells of a text as a workbook, some of them as what they look like."""
    import openpyxl

    book = openpyxl.Workbook()
    for row in _cells(_text(data)):
        with suppress(openpyxl.utils.exceptions.IllegalCharacterError, ValueError):
            book.worksheets[0].append([_typed(cell) for cell in row])
    saved = io.BytesIO()
    book.save(saved)
    stock(saved.getvalue(), folder)


def _cells(text: str) -> Iterator[list[str]]:
    """The rows of a text as far as it is a table."""
    with suppress(csv.Error):
        yield from csv.reader(io.StringIO(text.replace("\0", ""), newline=""))


def _typed(cell: str) -> Any:
    if len(cell) > 30_000:
        return cell[:30_000].encode("utf-8", "replace").decode()
    if re.fullmatch(r"-?\d{1,9}(\.\d+)?", cell) and hash(cell) % 2:
        return float(cell)
    return {"TRUE": True, "FALSE": False}.get(cell, cell.encode("utf-8", "replace").decode())


def workbook(data: bytes, folder: Path) -> None:
    """A spreadsheet whose inside was handled roughly: the sheet of a sound one is what came."""
    import openpyxl

    sound = io.BytesIO()
    openpyxl.Workbook().save(sound)
    made = io.BytesIO()
    with zipfile.ZipFile(sound) as old, zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as new:
        for part in old.namelist():
            new.writestr(part, data if part == "xl/worksheets/sheet1.xml" else old.read(part))
    stock(made.getvalue(), folder)


def answers(data: bytes, folder: Path) -> None:
    """What is typed at the ten questions, a line an answer."""
    file = folder / "new.toml"
    file.unlink(missing_ok=True)
    code, _, said = ran("new", file, typed=_text(data))
    if code == 2 and "must be UTF-8" not in said:
        raise Found(f"new ended in the middle: {said}")
    _refused(ran("check", file)[0], "the file that new wrote")


def _sweep(place: Path, folder: Path, scenarios: Path | None, template: Path | None) -> None:
    from lakewright.api.sweep import sweep, write_sweep

    record = folder / "swept" / "record.jsonl"
    record.unlink(missing_ok=True)
    found = sweep(place, scenarios, record, template)
    for swept in found.jobs:
        for outcome in swept.outcomes:
            if re.match(r"[A-Z]\w*(Error|Exception|Warning|Interrupt)\b", outcome.trouble):
                raise Found(outcome.trouble)
    write_sweep(found, folder / "swept", parquet=False)


def scenarios(data: bytes, folder: Path) -> None:
    """A file of scenarios, and one job swept through them."""
    (folder / "scenarios.toml").write_bytes(data)
    (folder / "jobs").mkdir(exist_ok=True)
    shutil.copy(EXAMPLES / "year_round_cabin.toml", folder / "jobs" / "cabin.toml")
    _sweep(folder / "jobs", folder, folder / "scenarios.toml", None)


def sites(data: bytes, folder: Path) -> None:
    """A table of sites."""
    (folder / "sites.csv").write_bytes(data)
    _sweep(folder / "sites.csv", folder, None, EXAMPLES / "year_round_cabin.toml")


def record(data: bytes, folder: Path) -> None:
    """A shop's record of what was said and found, and a doubt that rests on it."""
    from lakewright.api.doubt import doubted
    from lakewright.lines import doubt_lines
    from lakewright.state.unknowns import read_record

    (folder / "record.csv").write_bytes(data)
    if read_record(folder / "record.csv"):
        found = doubted(EXAMPLES / "year_round_cabin.toml", folder / "record.csv", truths=256)
        json.dumps(found.as_json(), allow_nan=False)
        list(doubt_lines(found))


OTHERS = ("/leaf/own", "/new", "/begin", "/leaf/money", "/leaf/waters", "/leaf/paper", "/leaf/visits")


def page(data: bytes, folder: Path) -> None:
    """What is posted to the page: a line a post, each to the draft and to one of the other places."""
    import httpx

    from lakewright.book.drafts import Book
    from lakewright.web.app import app_of
    from lakewright.web.jobs import Jobs

    file = folder / "job.toml"
    shutil.copy(EXAMPLES / "year_round_cabin.toml", file)
    (folder / "book.sqlite").unlink(missing_ok=True)

    async def posted(app: Any) -> str:
        said = ""
        transport = httpx.ASGITransport(app=app)
        headers = {"content-type": "application/json"}
        async with httpx.AsyncClient(transport=transport, base_url=f"http://{HOST}") as client:
            _see(await client.get("/"))
            for line in data.removesuffix(b"\n").split(b"\n")[:4]:
                answer = _see(await client.post("/draft", content=line, headers=headers))
                said += answer["trouble"][:300] if isinstance(answer, dict) else answer
                other = OTHERS[len(line) % len(OTHERS)]
                answer = _see(await client.post(other, content=line, headers=headers))
                said += answer[:100] if isinstance(answer, str) and not answer.startswith(("<", "{")) else ""
            for path in ("/", "/job.toml"):
                _see(await client.get(path))
        return said

    with closing(Book(folder / "book.sqlite")) as book:
        said = run_apart(posted(app_of(Jobs(file, book, True), frozenset({HOST}))))
    if said:
        raise AskError(said)


def _see(answer: Any) -> Any:
    if answer.status_code >= 500:
        raise Found(f"the page answered {answer.status_code}: {answer.text[:200]}")
    return answer.json() if answer.headers["content-type"].startswith("application/json") else answer.text


def draft(data: bytes, folder: Path) -> None:
    """A job file that the page is opened on, or that was changed under it."""
    from lakewright.api.look import fields
    from lakewright.web.parts import PARTS
    from lakewright.web.view import Asked, pieces

    text = data.decode("utf-8", "replace")
    file = folder / "job.toml"
    for part in PARTS:
        fields(text, part.keys)
    found = pieces(text, Asked(part=PARTS[len(text) % len(PARTS)].name, day=0), file)
    if found["trouble"]:
        raise AskError(found["trouble"][:300])


def book(data: bytes, folder: Path) -> None:
    """What `book import` takes in: a book's plain files, of which one is what came. Its first line names which."""
    from lakewright.book.file import BookFile
    from lakewright.book.plain_files import export, take_in

    first, _, content = data.partition(b"\n")
    out, new = folder / "out", folder / "new.sqlite"
    if not out.exists():
        from tests.book.made import fill, opened

        with opened(folder / "old.sqlite") as made:
            fill(made)
            with made.reading() as rows:
                export(rows, out)
    names = sorted(str(each.relative_to(out)) for each in out.rglob("*.*") if each.is_file())
    for leaf in folder.glob("new.sqlite*"):
        leaf.unlink()
    shutil.rmtree(folder / "in", ignore_errors=True)
    shutil.copytree(out, folder / "in")
    name = _text(first)
    (folder / "in" / (name if name in names else names[len(content) % len(names)])).write_bytes(content)
    with closing(BookFile(new)) as kept:
        with kept.writing() as rows:
            take_in(rows, folder / "in")
        with kept.reading() as rows:
            shutil.rmtree(folder / "again", ignore_errors=True)
            export(rows, folder / "again")


JOBS = tuple(sorted(EXAMPLES.glob("*.toml")))

DOORS = (
    Door("job", job, JOBS),
    Door("packet", packet, JOBS),
    Door("water", water, tuple(sorted((EXAMPLES / "waters").glob("*.toml")))),
    Door("visit", visit),
    Door("soundings", soundings),
    Door("levels", levels),
    Door("stock", stock),
    Door("sheet", sheet),
    Door("workbook", workbook),
    Door("answers", answers),
    Door("scenarios", scenarios),
    Door("sites", sites),
    Door("record", record),
    Door("page", page),
    Door("draft", draft, JOBS),
    Door("book", book),
)
