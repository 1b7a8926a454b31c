"""The packet: what a job looks like on paper."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path

from lakewright.api.options import as_options, chosen
from lakewright.api.own_files import put_own
from lakewright.api.packet_words import sayer_of
from lakewright.api.paper import PAPER, USUAL, Told
from lakewright.api.read import assembled, read
from lakewright.api.report import report_on
from lakewright.api.sheets import SHEETS
from lakewright.documents.bind import PAPER_OF, STANDING, Bound, Drawn, Page, bound, contents_of, strip_of
from lakewright.documents.parts_list import parts_csv
from lakewright.errors import AskError
from lakewright.job.models import Job

NAMES = tuple(dict.fromkeys((*PAPER, *SHEETS)))
"""All that may be asked for."""


def packet(
    path: Path,
    folder: Path | None = None,
    also: Sequence[str] = (),
    everything: bool = False,
    paper: str = "",
    units: str = "",
    over: bool = False,
) -> tuple[Path, ...]:
    """Write the papers of a job file, named after it, into a folder.

    Parameters
    ----------
    path : a job file
    folder : made where there is none; one named after the job, where one stands, if not said
    also : names of further sheets and files, of NAMES
    everything : all of them that this job has
    paper : letter or a4; by the units where not said
    units : US or SI; the job's where not said
    over : write over whatever stands there, and not over what this job made before alone

    Returns
    -------
    The files written: the sheets bound in one, each by itself, and what else was asked for

    Raises
    ------
    JobError where the file cannot be used, with every mistake found in it
    AskError where a sheet is not known or cannot be drawn, what prints it is not installed, the folder cannot be
        written, or something of another's stands there; nothing is written then
    """
    files = packet_files(path, also, everything, paper, units)
    return put_own(Path(f"{path.stem}-papers") if folder is None else folder, files, path, "packet", over)


def packet_files(
    path: Path,
    also: Sequence[str] = (),
    everything: bool = False,
    paper: str = "",
    units: str = "",
    text: str | None = None,
    only: Sequence[str] = (),
) -> dict[str, bytes]:
    """The same by their names, not written.

    Parameters
    ----------
    text : of a draft of the file, where it is that which is printed, as it stands: nothing open is chosen
    only : where given, these sheets and what goes with them alone

    Raises
    ------
    As `packet`
    """
    for name in also:
        if name not in NAMES:
            raise AskError(f"--also {name}: no sheet is called that; there is {', '.join(NAMES)}")
    told = told_of(path, paper, units, search=text is None, text=text)
    sheets = sheets_of(told, also, everything, only)
    strip, stem = strip_of(told.report), path.stem
    # Typst works beside us on the other core; the whole is the longest, so it goes first.
    with ThreadPoolExecutor(2) as printing:
        prints = {} if only else {"packet": printing.submit(whole, told, sheets)}
        prints |= {name: printing.submit(bound, [sheet], strip, told.paper) for name, sheet in sheets.items()}
        written: dict[str, bytes] = {}
        for sheet in sheets.values():
            if isinstance(sheet, Drawn):
                written |= {end: made() for end, made in sheet.files.items()}
        if told.report.priced is not None:
            written["parts.csv"] = parts_csv(told.report.priced.bill, told.report.units).encode("utf-8")
        written |= _files_of(told, also, everything)
        printed = {f"{name}.pdf": each.result().content for name, each in prints.items()}
    return {f"{stem}-{end}": content for end, content in (printed | written).items()}


def _files_of(told: Told, also: Sequence[str], everything: bool) -> dict[str, bytes]:
    """What is no paper, by the end of each file's name.

    Raises
    ------
    AskError where one that was asked for by name cannot be written
    """
    made: dict[str, bytes] = {}
    for name, files_of in SHEETS.items():
        if not (name in also or everything):
            continue
        try:
            made |= files_of(told.job, told.stock, told.assembly, told.report)
        except AskError:
            if name in also:
                raise
    return made


def checked_paper(paper: str, units: str) -> None:
    """Refuse a paper or units that are not known, with an AskError."""
    if paper and paper not in STANDING:
        raise AskError(f"--paper {paper}: no paper is called that; there is {', '.join(STANDING)}")
    if units and units not in PAPER_OF:
        raise AskError(f"--units {units}: no units are called that; there is {', '.join(PAPER_OF)}")


def told_of(path: Path, paper: str = "", units: str = "", search: bool = True, text: str | None = None) -> Told:
    """A job file, or a draft of it, read, judged and put in words for paper.

    Where it leaves something open and `search` says so, what is open is chosen, and the paper is that of the pick.

    Raises
    ------
    JobError where the file cannot be used; AskError for a paper or units that are not known
    """
    checked_paper(paper, units)
    job, stock, assembly = read(path, text)
    choice = chosen(path, report_on(job, assembly, stock=stock)) if search else None
    if choice is not None:
        job, stock, assembly = assembled(choice.job_text, path)
    if units:
        job = _written_in(job, units)
    found = replace(report_on(job, assembly, stock=stock), paper=paper)
    options = None if choice is None else as_options(choice, found.units)
    say = sayer_of(job, stock, assembly, found, {"options": options})
    return Told(job, stock, assembly, found, say, paper or PAPER_OF[found.units])


def _written_in(job: Job, units: str) -> Job:
    return job.model_copy(update={"job": job.job.model_copy(update={"units": units})})


def sheets_of(told: Told, also: Sequence[str], everything: bool, only: Sequence[str] = ()) -> dict[str, Page]:
    """The sheets of a packet by name: the usual ones, and of the others those that are asked for; or `only` some.

    Raises
    ------
    AskError where one that was asked for by name cannot be drawn
    """
    made: dict[str, Page] = {}
    for name, draw in PAPER.items():
        if not (name in USUAL or name in also or everything) or (only and name not in only):
            continue
        try:
            made[name] = draw(told)
        except AskError:
            if name in also:
                raise  # of what nobody asked for by name, the job has not got it
    return made


def whole(told: Told, sheets: Mapping[str, Page]) -> Bound:
    """The sheets of a packet bound in one, with their contents."""
    pages = list(sheets.values())
    return bound([contents_of(pages, told.report), *pages], strip_of(told.report), told.paper)
