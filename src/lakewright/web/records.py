"""What is on record: waters beside the job, and the shop's own parts."""

from __future__ import annotations

import base64
import binascii
import tempfile
from collections.abc import Mapping
from pathlib import Path, PurePath
from typing import Any

from lakewright.api.stock import stock_list
from lakewright.api.waters import water_folders, waters
from lakewright.web.jobs import JobAt
from lakewright.web.posts import Refused, text_of
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
    end = PurePath(name).suffix.lower()
    if end not in SHEETS:
        return render("leaf_own.html", name=name, found=None, wanted=SHEETS)
    try:
        content = base64.b64decode(text_of(given, "content"), validate=True)
    except binascii.Error:
        raise Refused("what was posted is not what the page posts: content") from None
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / f"sheet{end}"
        file.write_bytes(content)
        ours = {row.name: row for row in stock_list().rows}
        found = stock_list(own=file)
    own = [row for row in found.rows if ours.get(row.name) != row]
    return render("leaf_own.html", name=name, found=found, own=own, wanted=SHEETS)
