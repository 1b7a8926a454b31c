"""What the page shows of a draft, as pieces of HTML: each is made anew whenever the draft changes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from lakewright.api.explain import explain
from lakewright.api.look import STANDINGS, changed, fields, look
from lakewright.documents.ink import typeset
from lakewright.errors import JobError, LakewrightError
from lakewright.report import Finding
from lakewright.state.names import plain_name
from lakewright.web.drawing import drawing
from lakewright.web.parts import PARTS, part_named

if TYPE_CHECKING:
    from jinja2 import Environment


LEAST_ROWS = 7
"""ours: of findings, so many are in sight; all of those that fail, are unknown or tight."""


@dataclass(frozen=True)
class Asked:
    """What the page asks: a draft, what to change in it, and what to show.

    wide : of the window [pixels]; part : the one in hand; finding : whose working is shown, if any
    standings : on whose word each change is, by its path, where the page says; date : today
    between : the field that is to be given as lying between two values
    """

    text: str
    changes: dict[str, str]
    part: str
    day: int | None
    finding: str
    wide: float
    standings: dict[str, str] = field(default_factory=dict)
    between: str = ""
    date: str = ""


@cache
def _templates() -> Environment:
    from jinja2 import Environment, PackageLoader, StrictUndefined

    found = Environment(
        loader=PackageLoader("lakewright.web", "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    found.filters |= {"typeset": typeset, "plain_name": plain_name}
    return found


def render(template: str, **values: Any) -> str:
    """A template with values in it, every one of them escaped."""
    return _templates().get_template(template).render(**values)


def pieces(asked: Asked, file: Path) -> dict[str, Any]:
    """The draft after its changes, and the pieces of the page that show it.

    Where the draft cannot be used, what is wrong with it; the pieces that need a sound one are left out.
    Where the changes cannot be written into it, they come back as `kept`, and stay in their fields.
    """
    try:
        text = changed(asked.text, asked.changes, asked.standings, asked.date)
    except LakewrightError as error:
        trouble = render("trouble.html", words=str(error))
        hand = _hand(asked, asked.text, asked.changes)
        return {"text": asked.text, "trouble": trouble, "part": hand, "kept": asked.changes}
    answer = {"text": text, "part": _hand(asked, text, {})}
    try:
        found = look(text, file, asked.day)
    except JobError as error:
        head = "This draft cannot be judged yet."
        return {**answer, "trouble": render("mistakes.html", mistakes=error.mistakes, head=head)}
    svg, unplaced = drawing(found, asked.wide, part_named(asked.part).name)
    rows = found.shown.findings
    decide = sum(row.status in ("fails", "unknown", "tight") for row in rows)
    shown = next((finding for finding in rows if finding.name == asked.finding), None)
    working = _working(shown) if shown else {}
    return {
        **answer,
        "trouble": "",
        "head": render("head.html", look=found),
        "drawing": svg,
        "decides": render(
            "decides.html",
            look=found,
            rows=rows,
            first=max(decide, LEAST_ROWS),
            unplaced=unplaced,
            shown=shown,
            **working,
        ),
        "foot": render("foot.html", report=found.report),
    }


def _hand(asked: Asked, text: str, typed: Mapping[str, str]) -> str:
    """The part in hand with its fields; what was typed and not written stands in them all the same."""
    part = part_named(asked.part)
    found = fields(text, part.keys)
    shown = [replace(each, value=typed.get(each.key, each.value)) for each in found]
    return render("part.html", part=part, parts=PARTS, fields=shown, between=asked.between, standings=STANDINGS)


def _working(finding: Finding) -> dict[str, Any]:
    """How a finding came about: question, figures, what to do, sources."""
    told = explain(finding.name)
    return {"check": told.check, "figures": told.figures, "sources": told.sources}
