"""The blank survey sheet, or that of a job with what it says already."""

from __future__ import annotations

from pathlib import Path

from lakewright import __version__
from lakewright.api.own_files import put_own
from lakewright.api.packet import checked_paper, told_of
from lakewright.documents.bind import PAPER_OF, Strip, bound, strip_of
from lakewright.documents.said import Sayer
from lakewright.documents.survey_sheet import survey_sheet


def survey(path: Path | None, folder: Path, paper: str = "", units: str = "", over: bool = False) -> Path:
    """Write the survey sheet into a folder.

    Parameters
    ----------
    path : a job file whose values are filled in; without one the sheet is blank
    folder : made where there is none
    paper : letter or a4; by the units where not said
    units : US or SI; the job's where not said, US without one
    over : write over whatever stands there, and not over what this made before alone

    Raises
    ------
    JobError where the file cannot be used
    AskError for a paper or units that are not known, where what prints it is not installed, the
        folder cannot be written, or something of another's stands there; nothing is written then
    """
    if path is None:
        checked_paper(paper, units)
        system = units or "US"
        strip, say, stem = Strip("not named yet", "", "", __version__, "none"), Sayer(system, {}), "survey"
        on = paper or PAPER_OF[system]
    else:
        told = told_of(path, paper, units, search=False)
        strip, say, on, stem = strip_of(told.report), told.say, told.paper, f"{path.stem}-survey"
    content = bound([survey_sheet(say)], strip, on).content
    (file,) = put_own(folder, {f"{stem}.pdf": content}, path, "survey", over)
    return file
