"""The leaves beneath the section: what is folded away until it is asked for, so that no edit waits for it."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from starlette.concurrency import run_in_threadpool
from starlette.responses import PlainTextResponse, Response, StreamingResponse

from lakewright.web.apart import apart
from lakewright.web.begin import begin_leaf
from lakewright.web.beside import beside
from lakewright.web.book import Shelf
from lakewright.web.drawn import bench, curves
from lakewright.web.jobs import JobAt, Jobs
from lakewright.web.money import money
from lakewright.web.papers import ABOUT, WHOLE
from lakewright.web.records import own_parts, records
from lakewright.web.rows import rows
from lakewright.web.told import Made, in_words
from lakewright.web.view import render
from lakewright.web.visits import visits


@dataclass(frozen=True)
class Leaf:
    """A leaf.

    name : as its address has it; title : as it is headed; why : what one unfolds it for
    renews : whether it is asked for again by itself once one has paused after an edit
    ages : whether it says anything of the draft, and so is pale once that has changed
    """

    name: str
    title: str
    why: str
    renews: bool = True
    ages: bool = True


LEAVES = (
    Leaf("money", "Parts and price", "the bill, three prices, what is cut"),
    Leaf("bench", "The stand on the bench", "to scale, with every part numbered"),
    Leaf("spots", "Where the intake could stand", "every place along the soundings, and the plan"),
    Leaf("curves", "The pump's curve", "where pump and line meet, case by case, and the grade line along the path"),
    Leaf("sure", "How sure, and what to measure first", "over the sites that would be told like this one"),
    Leaf("rows", "Lists, row by row", "steps of the treatment, soundings, days, branches and the rest"),
    Leaf("visits", "What is wrong with it", "from what was read on two gauges and what was seen"),
    Leaf("beside", "Two designs side by side", "and one of them taken", renews=False),
    Leaf("paper", "On paper", "the sheets to take away", renews=False, ages=False),
    Leaf("book", "The book", "jobs over the years: find, revise, price anew, visit", renews=False, ages=False),
    Leaf("waters", "Waters on record", "and what each still lacks", renews=False, ages=False),
    Leaf("own", "Parts of one's own", "a sheet of the shop's, read over ours", renews=False, ages=False),
    Leaf("begin", "Another job", "ten questions, an example, or a job file", renews=False, ages=False),
)

HERE: Mapping[str, Made] = {
    "money": money,
    "bench": bench,
    "curves": curves,
    "rows": rows,
    "visits": visits,
    "beside": beside,
    "paper": lambda job, *_: render("leaf_paper.html", job=job, papers=ABOUT, whole=WHOLE),
    "waters": records,
    "own": own_parts,
}
"""What is made in the page's own program: none takes much over half a second."""

APART = ("sure", "spots")
"""What takes seconds: made by a program of its own, which is ended where nobody waits for it any more."""


async def leaf(name: str, jobs: Jobs, job: JobAt, text: str, given: Mapping[str, Any]) -> Response:
    """A leaf of a draft, as lines of JSON: seconds while it is made, the piece of HTML on the last."""
    if name in APART:
        return StreamingResponse(apart(name, text, job.file), media_type="application/x-ndjson")
    if name == "begin":
        return _whole(await run_in_threadpool(begin_leaf, jobs, job))
    if name == "book":
        return _whole(await run_in_threadpool(Shelf(jobs).leaf, job))
    if name not in HERE:
        return PlainTextResponse("no such leaf", 404)
    return _whole(await run_in_threadpool(in_words, HERE[name], job, text, given))


def _whole(html: str) -> Response:
    return Response(json.dumps({"html": html}) + "\n", media_type="application/x-ndjson")
