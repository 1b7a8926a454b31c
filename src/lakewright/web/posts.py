"""What the page posts, read with a bound and taken for nothing it is not."""

from __future__ import annotations

import base64
import datetime
import json
import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from starlette.requests import Request

from lakewright.errors import AskError, LakewrightError
from lakewright.web.view import Asked

LARGEST_POST = 200_000
"""ours: an edit is some hundreds of bytes, a job file some thousands; more is refused unread [bytes]."""

LARGEST_SHEET = 3_000_000
"""ours: a sheet of ten thousand parts, written as text inside the post; more is refused unread [bytes]."""


class Refused(LakewrightError):
    """What was posted is not what the page posts."""


@dataclass(frozen=True)
class Edit:
    """What the page asks to be done to the draft.

    changes : values by their paths; standings : on whose word, where it is said; date : today
    step : back, forth, anew from the file, or to the file; goes_on : whether the changes go on with the last ones
    """

    changes: dict[str, str]
    standings: dict[str, str]
    date: str
    step: str
    goes_on: bool


async def posted(request: Request, most: int = LARGEST_POST) -> dict[str, Any]:
    """The object that was posted.

    Raises
    ------
    Refused where it is none, or larger than `most`
    """
    body = bytearray()
    async for some in request.stream():
        body += some
        if len(body) > most:
            raise Refused(f"found more than {most} bytes; what one edits is some hundreds")
    try:
        given = json.loads(body)
        json.dumps(given, ensure_ascii=False).encode("utf-8")  # half a letter, which JSON may spell, is no text
    except (ValueError, RecursionError) as error:
        raise _strange(error) from None
    if not isinstance(given, dict):
        raise _strange(TypeError())
    return given


def asked_of(given: Mapping[str, Any]) -> Asked:
    """What of the page is to be shown.

    Raises
    ------
    Refused where it is said in another form than the page's
    """
    try:
        day, wide = given.get("day"), float(given.get("wide", 1200.0))
        if not (day is None or type(day) is int) or not math.isfinite(wide):
            raise TypeError
    except (ValueError, TypeError, OverflowError) as error:
        raise _strange(error) from None
    part, finding, between = (text_of(given, name) for name in ("part", "finding", "between"))
    return Asked(part, day, finding, wide, between, given.get("rest") is True)


def edit_of(given: Mapping[str, Any]) -> Edit:
    """What is to be done to the draft.

    Raises
    ------
    Refused where it is said in another form than the page's
    """
    goes_on = given.get("goes_on", False)
    if type(goes_on) is not bool:
        raise _strange(TypeError())
    return Edit(texts_of(given, "changes"), texts_of(given, "standings"), today(), text_of(given, "step"), goes_on)


def text_of(given: Mapping[str, Any], name: str) -> str:
    """A text of what was posted; empty where there is none."""
    found = given.get(name, "")
    if not isinstance(found, str):
        raise _strange(TypeError())
    return found


def texts_of(given: Mapping[str, Any], name: str) -> dict[str, str]:
    """Texts by their names; none where there are none."""
    found = given.get(name, {})
    if not isinstance(found, dict):
        raise _strange(TypeError())
    return {str(key): str(value) for key, value in found.items()}


def content_of(given: Mapping[str, Any]) -> bytes:
    """The bytes of a file that was posted as text.

    Raises
    ------
    Refused where it is said in another form than the page's
    """
    try:
        return base64.b64decode(text_of(given, "content"), validate=True)
    except ValueError as error:
        raise _strange(error) from None


def number_of(given: Mapping[str, Any], name: str) -> int:
    """A whole number of what was posted, written as text; 0 where there is none.

    Raises
    ------
    Refused where it is something else
    """
    found = text_of(given, name) or "0"
    if not (found.isascii() and found.isdigit() and len(found) < 10):
        raise _strange(ValueError())
    return int(found)


def day_of(text: str) -> datetime.date:
    """A day as a person types it; today where none is typed.

    Raises
    ------
    AskError where it is none
    """
    try:
        return datetime.date.fromisoformat(text or today())
    except ValueError:
        raise AskError(f"found the day {text[:40]!r}; wanted one as 2026-08-14") from None


def today() -> str:
    """The day on which something is said."""
    return datetime.date.today().isoformat()


def _strange(error: Exception) -> Refused:
    return Refused(f"what was posted is not what the page posts: {type(error).__name__}")
