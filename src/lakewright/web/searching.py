"""One search at a time, told line by line, which stops where nobody waits for it."""

from __future__ import annotations

import asyncio
import json
import threading
from collections.abc import AsyncGenerator
from pathlib import Path

from starlette.concurrency import run_in_threadpool
from starlette.responses import PlainTextResponse, Response, StreamingResponse

from lakewright.web.choices import choices


class Stopped(Exception):
    """Nobody waits for this search any more."""


class Searching:
    """The searches of a page."""

    def __init__(self) -> None:
        self.lock = asyncio.Lock()

    async def answer(self, text: str, file: Path) -> Response:
        """A search of a draft, or a refusal where one is under way."""
        if self.lock.locked():
            return PlainTextResponse("a search is under way already; it will be done, or can be stopped", 409)
        await self.lock.acquire()
        return StreamingResponse(self.lines(text, file), media_type="application/x-ndjson")

    async def lines(self, text: str, file: Path) -> AsyncGenerator[str, None]:
        """The lines of one search, which has the lock to itself."""
        loop, said, gone = asyncio.get_running_loop(), asyncio.Queue[str | None](), threading.Event()

        def tell(done: int, every: int) -> None:
            if gone.is_set():
                raise Stopped
            loop.call_soon_threadsafe(said.put_nowait, json.dumps({"done": done, "every": every}))

        async def work() -> str:
            try:
                return await run_in_threadpool(choices, text, file, tell)
            except Stopped:
                return ""
            finally:
                self.lock.release()
                said.put_nowait(None)

        task = asyncio.create_task(work())
        try:
            while (line := await said.get()) is not None:
                yield line + "\n"
            yield json.dumps({"choices": await task}) + "\n"
        finally:
            gone.set()
