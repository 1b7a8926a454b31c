"""Beginning another job: by the ten questions, from an example, or with a job file from elsewhere."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import PurePath
from typing import Any

from lakewright.api.demo import examples
from lakewright.api.drafts import begin
from lakewright.api.new import Answers, answers_now, go_or_no, job_text, taken
from lakewright.api.questions import QUESTIONS, Ask
from lakewright.errors import JobError, LakewrightError
from lakewright.web.jobs import EXAMPLE, JobAt, Jobs
from lakewright.web.posts import text_of, texts_of, today
from lakewright.web.view import render

DECIDING = tuple(number for number, question in enumerate(QUESTIONS) if question.decides)
"""The questions after which it is said whether a pump on the shore will do."""


@dataclass(frozen=True)
class Taken:
    """What was answered: what can be used, what is wrong with the rest, and which asks the answers lead to."""

    answers: Answers
    wrong: dict[str, str]
    asked: tuple[str, ...]


def begin_leaf(jobs: Jobs, job: JobAt) -> str:
    """The ways to begin another job, and the jobs that are under way, as a piece of HTML."""
    others = [each for each in (jobs.served, *jobs.under_way()) if each.name != job.name]
    starts = [(f"/?job={EXAMPLE}{name}", title, name) for name, title in examples().items()]
    deciding = [number + 1 for number in DECIDING]
    return render("leaf_begin.html", questions=QUESTIONS, deciding=deciding, others=others, examples=starts)


def taken_of(said: Mapping[str, str]) -> Taken:
    """The answers as typed, taken in the order of the questions."""
    answers, wrong, asked = Answers(), {}, []
    for ask in _asks():
        if not ask.is_asked(answers):
            continue
        asked.append(ask.key)
        try:
            found = taken(ask, said.get(ask.key, ""), answers)
        except LakewrightError as error:
            wrong[ask.key] = str(error)
            continue
        if found is not None:
            answers[ask.key] = found
    return Taken(answers, wrong, tuple(asked))


def questions_now(jobs: Jobs, given: Mapping[str, Any]) -> dict[str, Any]:
    """What the answers come to: what cannot be used, which asks there are, go or no-go, and what the caller is told.

    Where `begin` is asked and every answer can be used, the address of the job they begin.
    """
    found = taken_of(texts_of(given, "answers"))
    result: dict[str, Any] = {"wrong": found.wrong, "asked": found.asked, "verdict": "", "address": ""}
    file = jobs.folder / "new.toml"
    try:
        go, line, ways = go_or_no(found.answers, today(), file)
        told = answers_now(found.answers, today(), file)
        left = [number + 1 for number in DECIDING if not any(a.key in found.answers for a in QUESTIONS[number].asks)]
        result["verdict"] = render("verdict.html", go=go, line=line, ways=ways, answers=told, left=left)
        if given.get("begin") is True and not found.wrong:
            text = job_text(found.answers, today())
            result["address"] = _address(jobs, _title(text), text)
    except JobError as error:
        result["verdict"] = render("mistakes.html", mistakes=error.mistakes, head="These answers make no job yet.")
    except LakewrightError as error:
        result["verdict"] = render("trouble.html", words=str(error))
    return result


def begin_with(jobs: Jobs, given: Mapping[str, Any]) -> dict[str, str]:
    """The address of the job that a job file's text begins, or what is wrong with the text."""
    text, name = text_of(given, "text"), PurePath(text_of(given, "name")).stem
    try:
        return {"trouble": "", "address": _address(jobs, name, text)}
    except JobError as error:
        head = "This file is no job file that can be used, and nothing was begun with it."
        return {"trouble": render("mistakes.html", mistakes=error.mistakes, head=head), "address": ""}
    except LakewrightError as error:
        return {"trouble": render("trouble.html", words=str(error)), "address": ""}


def _address(jobs: Jobs, name: str, text: str) -> str:
    return jobs.named(begin(jobs.book, jobs.folder, name, text).stem).address


def _title(text: str) -> str:
    return str(tomllib.loads(text)["job"]["title"])


def _asks() -> Iterator[Ask]:
    for question in QUESTIONS:
        yield from question.asks
