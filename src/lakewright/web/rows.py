"""The lists of a job, edited row by row, as the page shows them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from lakewright.api.look import STANDINGS
from lakewright.api.rows import lists, rows_of
from lakewright.web.jobs import JobAt
from lakewright.web.posts import text_of
from lakewright.web.view import render

FIRST = "treatment.steps"
"""ours: the list that is shown where none is asked for: people ask after it most."""


def rows(_job: JobAt, text: str, given: Mapping[str, Any]) -> str:
    """One list of the draft with its rows, and which others there are, as a piece of HTML."""
    every = lists(text)
    asked = text_of(given, "list") or FIRST
    now = next((each for each in every if each.key == asked), next(each for each in every if each.key == FIRST))
    found = rows_of(text, now.key, given.get("add") is True)
    return render("leaf_rows.html", lists=every, now=now, rows=found, standings=STANDINGS)
