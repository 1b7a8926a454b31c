"""A leaf, or in its place why there is none."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from lakewright.errors import JobError, LakewrightError
from lakewright.web.jobs import JobAt
from lakewright.web.view import render

Made = Callable[[JobAt, str, Mapping[str, Any]], str]
"""What makes a leaf: of a job, the text of its draft, and what was posted besides."""


def in_words(made: Made, job: JobAt, text: str, given: Mapping[str, Any]) -> str:
    """A leaf, or in its place why there is none."""
    try:
        return made(job, text, given)
    except JobError as error:
        return render("mistakes.html", mistakes=error.mistakes, head="Not while the draft cannot be judged.")
    except LakewrightError as error:
        return render("trouble.html", words=str(error))
