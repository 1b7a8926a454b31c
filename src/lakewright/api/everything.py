"""A job with all that belongs to it in one file, and such a file opened again."""

from __future__ import annotations

from pathlib import Path

from lakewright.api.read import assembled
from lakewright.api.report import report_on
from lakewright.api.waters import water_folders
from lakewright.documents.everything import WATERS, everything, files_in
from lakewright.errors import AskError
from lakewright.job.disk import put
from lakewright.job.models import Job
from lakewright.job.read import read_job_text
from lakewright.job.read_water import find_water_file
from lakewright.report import Report
from lakewright.state.assemble import Assembly
from lakewright.stock.load import Stock


def everything_files(job: Job, stock: Stock, assembly: Assembly, report: Report) -> dict[str, bytes]:
    """The job, what it reads beside it, its facts and its report as JSON, by the end of the file's name.

    The report is in the units of the job's file, whatever the papers are in: it is that which opening it gives again.

    Raises
    ------
    AskError where the job was not read from a file
    """
    if assembly.file is None:
        raise AskError("a job that was read from no file has no name to be opened by; save it first")
    text, path = assembly.text, assembly.file
    said = read_job_text(text, str(path))
    if said.job.units != job.job.units:
        own, _, assembly = assembled(text, path)
        report = report_on(own, assembly, stock=stock)
    files = files_of(said, text, path)
    return {"everything.json": everything(path.name, files, report, assembly)}


def files_of(job: Job, text: str, file: Path) -> dict[str, bytes]:
    """A job's file and those it reads beside it, by their names from its folder."""
    found = {file.name: text.encode("utf-8")}
    for name in (job.site.soundings_file, job.site.levels.record):
        if name is not None:
            found[name] = (file.parent / name).read_bytes()
    water = find_water_file(job.site.water or "", water_folders(file))
    if water is not None:
        found[f"{WATERS}/{water.name}"] = water.read_bytes()
    return found


def reopen(path: Path, folder: Path) -> tuple[Path, ...]:
    """Write the files in such a JSON into a folder as they were, the job first, and return where they are.

    Raises
    ------
    AskError where it cannot be used, or a file of that name is there already; nothing is written then
    """
    try:
        text = path.read_bytes().decode("utf-8")
    except (OSError, UnicodeDecodeError):
        raise AskError(f"{path} cannot be read; name the JSON that packet --also everything wrote") from None
    job, files = files_in(text, str(path))
    placed = {folder / name: content for name, content in files.items()}
    for file, content in placed.items():
        if file.exists() and (not file.is_file() or file.read_bytes() != content):
            raise AskError(f"{file} is there already and says something else; name another folder")
    try:
        for file in placed:
            file.parent.mkdir(parents=True, exist_ok=True)
        put(placed)
    except OSError as problem:
        raise AskError(f"{folder} cannot be written to: {(problem.strerror or str(problem)).lower()}") from None
    first = folder / job
    return (first, *(file for file in placed if file != first))
