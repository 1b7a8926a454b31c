"""The page's server: the draft of a job file, kept in a book; the file is written only when that is asked."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from importlib import resources
from typing import Any

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import JSONResponse, PlainTextResponse, Response
from starlette.routing import Route

from lakewright.api.drafts import STEPS, WAYS, arrange, draft, restart, write_draft
from lakewright.api.drafts import edit as changed
from lakewright.api.drafts import step as stepped
from lakewright.errors import AskError, JobError, LakewrightError
from lakewright.web.begin import begin_with, questions_now
from lakewright.web.book import Shelf
from lakewright.web.guard import Guard
from lakewright.web.jobs import JobAt, Jobs
from lakewright.web.leaves import LEAVES, leaf
from lakewright.web.look import style
from lakewright.web.papers import paper
from lakewright.web.posts import LARGEST_SHEET, Edit, Refused, asked_of, edit_of, posted, text_of
from lakewright.web.searching import Searching
from lakewright.web.view import Asked, pieces, render

SCRIPTS = ("anew", "page", "draft", "hand", "water", "search", "leaves", "rows", "begin", "book")

FILES = {
    **{f"{name}.js": ("lakewright.web", f"static/{name}.js", "text/javascript") for name in SCRIPTS},
    "regular.ttf": ("lakewright.documents", "fonts/CharisSIL-Regular.ttf", "font/ttf"),
    "bold.ttf": ("lakewright.documents", "fonts/CharisSIL-Bold.ttf", "font/ttf"),
}


class Page:
    """The page of the jobs of one folder."""

    def __init__(self, jobs: Jobs) -> None:
        self.jobs, self.book = jobs, jobs.book
        self.searching = Searching()

    async def page(self, request: Request) -> Response:
        """The page itself, with the draft as it stands."""
        job = self.jobs.named(request.query_params.get("job", ""))
        text = await run_in_threadpool(self.text, job)
        html = render("page.html", name=job.file.name, job=job.name, text=text, leaves=LEAVES, scripts=SCRIPTS)
        return Response(html, media_type="text/html")

    async def job_file(self, request: Request) -> Response:
        """The draft as a job file to be taken away."""
        job = self.jobs.named(request.query_params.get("job", ""))
        return _to_take_away(await run_in_threadpool(self.text, job), "job.toml", "application/toml")

    async def draft(self, request: Request) -> Response:
        """The draft after what is asked was done to it, and the pieces of the page that show it."""
        given = await posted(request)
        job, asked, edit = self.jobs.named(text_of(given, "job")), asked_of(given), edit_of(given)
        return JSONResponse(await run_in_threadpool(self.answer, job, asked, edit))

    def answer(self, job: JobAt, asked: Asked, edit: Edit) -> dict[str, Any]:
        """The same, for the answer.

        Where something cannot be done, what is wrong with it; changes that cannot be written come back as `kept`.
        """
        trouble, kept = "", {}
        try:
            if edit.changes:
                changed(self.book, job.file, edit.changes, edit.standings, edit.date, edit.goes_on)
        except LakewrightError as error:
            trouble, kept = str(error), edit.changes
        try:
            self.step(job, edit.step)
        except LakewrightError as error:
            trouble = trouble or str(error)
        now = draft(self.book, job.file)
        return {
            **pieces(now.text, asked, job.file, trouble, kept),
            "keep": render("keep.html", draft=now, job=job, name=job.file.name),
            "number": now.number,
            "kept": kept,
        }

    def step(self, job: JobAt, step: str) -> None:
        """Take a step with the draft, or with one of its rows: `later treatment.steps.1`; none where none is named."""
        if step in STEPS:
            stepped(self.book, job.file, step)
        elif (way := step.partition(" "))[0] in WAYS:
            arrange(self.book, job.file, way[2], way[0])
        elif step == "restart":
            restart(self.book, job.file)
        elif step == "write" and job.may_write:
            write_draft(self.book, job.file)

    def text(self, job: JobAt) -> str:
        """The draft of a job as it stands."""
        return draft(self.book, job.file).text

    async def choose(self, request: Request) -> Response:
        """What else would hold: a line of JSON whenever the search has come further, the choices on the last."""
        given = await posted(request)
        job = self.jobs.named(text_of(given, "job"))
        return await self.searching.answer(await run_in_threadpool(self.text, job), job.file)

    async def leaf(self, request: Request) -> Response:
        """What is folded beneath the page, unfolded: asked for by itself, so that no edit waits for it."""
        given = await posted(request, LARGEST_SHEET)
        job = self.jobs.named(text_of(given, "job"))
        text = await run_in_threadpool(self.text, job)
        return await leaf(request.path_params["name"], self.jobs, job, text, given)

    async def new(self, request: Request) -> Response:
        """What the answers to the ten questions come to so far; where that is asked, the job they begin."""
        given = await posted(request)
        return JSONResponse(await run_in_threadpool(questions_now, self.jobs, given))

    async def begin(self, request: Request) -> Response:
        """A job begun with a job file's text, or what is wrong with it."""
        given = await posted(request)
        return JSONResponse(await run_in_threadpool(begin_with, self.jobs, given))

    async def paper(self, request: Request) -> Response:
        """A sheet of the packet to be taken away."""
        job = self.jobs.named(request.query_params.get("job", ""))
        text = await run_in_threadpool(self.text, job)
        name, content, kind = await run_in_threadpool(paper, job, text, request.path_params["name"])
        return _to_take_away(content, name, kind)

    async def static(self, request: Request) -> Response:
        """Style, script and type."""
        name = request.path_params["name"]
        if name == "page.css":
            return Response(style(), media_type="text/css")
        if name not in FILES:
            return PlainTextResponse("no such file", 404)
        package, where, kind = FILES[name]
        return Response(resources.files(package).joinpath(where).read_bytes(), media_type=kind)


def app_of(jobs: Jobs, hosts: frozenset[str], token: str = "") -> Starlette:
    """The page, answering these values of Host; where there is a token, nobody without it."""
    page, shelf = Page(jobs), Shelf(jobs)
    routes = [
        Route("/", _in_words(page.page)),
        Route("/job.toml", _in_words(page.job_file)),
        Route("/draft", _in_words(page.draft), methods=["POST"]),
        Route("/choices", _in_words(page.choose), methods=["POST"]),
        Route("/leaf/{name}", _in_words(page.leaf), methods=["POST"]),
        Route("/new", _in_words(page.new), methods=["POST"]),
        Route("/begin", _in_words(page.begin), methods=["POST"]),
        Route("/paper/{name}", _in_words(page.paper)),
        Route("/book", _in_words(shelf.ask), methods=["POST"]),
        Route("/book/{what}", _in_words(shelf.ask), methods=["POST"]),
        Route("/book/{name}", _in_words(shelf.take)),
        Route("/static/{name}", page.static),
    ]
    return Starlette(routes=routes, middleware=[Middleware(Guard, hosts=hosts, token=token)])


Answer = Callable[[Request], Awaitable[Response]]


def _in_words(answer: Answer) -> Answer:
    """The same, with what cannot be answered told in words."""

    async def told(request: Request) -> Response:
        try:
            return await answer(request)
        except Refused as error:
            return PlainTextResponse(str(error), 400)
        except (AskError, JobError) as error:
            return PlainTextResponse(str(error), 404)

    return told


def _to_take_away(content: str | bytes, name: str, kind: str) -> Response:
    return Response(content, media_type=kind, headers={"content-disposition": f'attachment; filename="{name}"'})
