"""How sure a draft is and what to measure first, as the page shows it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from lakewright.api.doubt import doubted
from lakewright.lines import in_a_hundred, worth_words
from lakewright.web.jobs import JobAt
from lakewright.web.view import render


def sure(job: JobAt, text: str, _: Mapping[str, Any]) -> str:
    """How many of a hundred sites told like this one hold, check by check, and what is worth measuring."""
    found = doubted(job.file, text=text)
    doubt = found.doubt
    rows = [(each.check, each.force, in_a_hundred(each)) for each in sorted(doubt.checks, key=lambda one: one.chance)]
    head, measure = worth_words(doubt.worth)
    return render(
        "leaf_sure.html",
        truths=doubt.truths,
        job="" if doubt.waits else in_a_hundred(doubt.job),
        waits=len(doubt.waits),
        doubtful=[row for row in rows if row[2] != "all"],
        sure=[name for name, _, shown in rows if shown == "all"],
        unknown=doubt.unknown,
        head=head,
        measure=measure,
    )
