"""What is on record: waters beside the job, and the shop's own parts."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path, PurePath
from typing import Any

from lakewright.api.book_checks import scratch
from lakewright.api.stock import stock_list
from lakewright.api.waters import water_folders, waters
from lakewright.errors import AskError
from lakewright.web.jobs import JobAt
from lakewright.web.posts import content_of, text_of
from lakewright.web.view import render

SHEETS = (".csv", ".xlsx")


def records(job: JobAt, _text: str, _: Mapping[str, Any]) -> str:
    """The waters that a job finds beside it, as a piece of HTML."""
    folders = water_folders(job.file)
    cards = [card for folder in folders if folder.is_dir() for card in waters(folder)]
    return render("leaf_waters.html", cards=cards, folder=folders[0])


def own_parts(_job: JobAt, _text: str, given: Mapping[str, Any]) -> str:
    """What of a shop's own sheet can be read, and each bad row of it; without one, where to drop it."""
    name = PurePath(text_of(given, "name")).name
    if not name:
        return render("leaf_own.html", name="", found=None, wanted=SHEETS)
    if PurePath(name).suffix.lower() not in SHEETS:
        return render("leaf_own.html", name=name, found=None, wanted=SHEETS)
    with sheet_of(given) as file:
        ours = {row.name: row for row in stock_list().rows}
        found = stock_list(own=file)
    own = [row for row in found.rows if ours.get(row.name) != row]
    return render("leaf_own.html", name=name, found=found, own=own, wanted=SHEETS)


@contextmanager
def sheet_of(given: Mapping[str, Any], key: str = "name") -> Iterator[Path | None]:
    """The sheet that was posted, as a file for a while; None where none was. `key` names its name.

    Raises
    ------
    AskError where it is of no kind that can be read, or there is no room for it
    """
    name = PurePath(text_of(given, key)).name
    if not name:
        yield None
        return
    end = PurePath(name).suffix.lower()
    if end not in SHEETS:
        raise AskError(f"{name} is no sheet of the kinds {' or '.join(SHEETS)}; save it as one of them")
    content = content_of(given)
    with scratch() as folder:
        file = folder / f"sheet{end}"
        file.write_bytes(content)
        yield file
