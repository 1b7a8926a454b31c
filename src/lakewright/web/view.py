"""What the page shows of a draft, as pieces of HTML: each is made anew whenever the draft changes."""

from __future__ import annotations

import datetime
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from lakewright import units
from lakewright.api.explain import explain
from lakewright.api.look import Look, changed, fields, look
from lakewright.errors import JobError, LakewrightError
from lakewright.report import Finding
from lakewright.stock.load import Stock
from lakewright.web.drawing import drawing
from lakewright.web.parts import PARTS, part_named

if TYPE_CHECKING:
    from jinja2 import Environment

WORDS = {"fails": "fails", "tight": "tight", "holds": "holds", "unknown": "unknown", "not asked": "not asked"}


@dataclass(frozen=True)
class Asked:
    """What the page asks: a draft, what to change in it, and what to show.

    wide : of the window [pixels]; part : the one in hand; finding : whose working is shown, if any
    """

    text: str
    changes: dict[str, str]
    part: str
    day: int | None
    finding: str
    wide: float


@cache
def _templates() -> Environment:
    from jinja2 import Environment, PackageLoader, StrictUndefined

    return Environment(
        loader=PackageLoader("lakewright.web", "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def render(template: str, **values: Any) -> str:
    """A template with values in it, every one of them escaped."""
    return _templates().get_template(template).render(**values)


def pieces(asked: Asked, file: Path, stock: Stock) -> dict[str, str]:
    """The draft after its changes, and the pieces of the page that show it.

    Where the draft cannot be used, what was wrong with it; the pieces that need a sound one are left out.
    """
    text, trouble = asked.text, ""
    try:
        text = changed(text, asked.changes)
        found = look(text, file, asked.day)
    except JobError as error:
        return {"text": text, "trouble": render("mistakes.html", mistakes=error.mistakes), "part": hand(asked, text, stock)}
    except LakewrightError as error:
        trouble = render("trouble.html", words=str(error))
        return {"text": asked.text, "trouble": trouble, "part": hand(asked, asked.text, stock)}
    svg, unplaced = drawing(found, asked.wide, part_named(asked.part).name)
    return {
        "text": text,
        "trouble": "",
        "head": render("head.html", look=found, facts=_facts(found)),
        "drawing": svg,
        "decides": render("decides.html", look=found, rows=found.shown.findings, unplaced=unplaced),
        "part": hand(asked, text, stock),
        "working": working(asked.finding, found),
    }


def hand(asked: Asked, text: str, stock: Stock) -> str:
    """The part in hand, with its fields."""
    part = part_named(asked.part)
    return render("part.html", part=part, parts=PARTS, fields=fields(text, part.keys, stock))


def working(name: str, found: Look) -> str:
    """How a finding came about: question, figures, case, sources, what to do."""
    finding = next((each for each in found.shown.findings if each.name == name), None)
    if finding is None:
        return ""
    told = explain(name)
    figures = [(row.name.replace("_", " "), row.text, row.why) for row in told.figures]
    return render("working.html", finding=finding, check=told.check, figures=figures, sources=told.sources)


def _facts(found: Look) -> str:
    """How sure the numbers are, as the head of the page says it."""
    return f"{found.report.grade} grade: {found.report.told} told, {len(found.report.assumed)} assumed"
