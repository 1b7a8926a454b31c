"""What takes seconds, made by a program of its own: the page stays quick meanwhile, and it can be ended at once.

That program is this module, run with the name of a leaf: job and draft come in, the piece of HTML goes out.
"""

from __future__ import annotations

import asyncio
import json
import os
import sys
from collections.abc import AsyncGenerator
from contextlib import suppress
from pathlib import Path
from time import perf_counter

TOLD_EVERY = 0.25
"""ours: so often it is said how long it takes, and seen whether anybody waits [s]."""

GIVES_WAY = 5
"""ours: by how much the program gives way to the page's own, on a machine that has it."""

AT_ONCE = 2
"""ours: of such programs, no more run beside each other: a small machine has two cores."""

_room = asyncio.Semaphore(AT_ONCE)


async def apart(name: str, text: str, file: Path) -> AsyncGenerator[str, None]:
    """Lines of JSON: the seconds it has taken, then the piece of HTML. It is ended where nobody reads on."""
    start = perf_counter()
    while _room.locked():
        yield json.dumps({"seconds": round(perf_counter() - start, 1)}) + "\n"
        await asyncio.sleep(TOLD_EVERY)
    async with _room:
        process = await asyncio.create_subprocess_exec(
            *(sys.executable, "-m", "lakewright.web.apart", name),
            stdin=asyncio.subprocess.PIPE,
            stdout=asyncio.subprocess.PIPE,
            stderr=asyncio.subprocess.DEVNULL,
        )
        work = asyncio.create_task(process.communicate(json.dumps({"text": text, "file": str(file)}).encode("utf-8")))
        try:
            while not work.done():
                yield json.dumps({"seconds": round(perf_counter() - start, 1)}) + "\n"
                await asyncio.wait([work], timeout=TOLD_EVERY)
            out, _ = work.result()
            html = out.decode("utf-8") if process.returncode == 0 else ""
            yield json.dumps({"html": html or "<p>It could not be made; ask again.</p>"}) + "\n"
        finally:
            with suppress(ProcessLookupError):
                if process.returncode is None:
                    process.kill()
            work.cancel()
            with suppress(asyncio.CancelledError, ConnectionError):
                await work
            await process.wait()


def main(name: str) -> None:
    """Make the leaf of that name."""
    from lakewright.web.drawn import spots
    from lakewright.web.jobs import JobAt
    from lakewright.web.sure import sure
    from lakewright.web.told import in_words

    if hasattr(os, "nice"):
        os.nice(GIVES_WAY)
    given = json.loads(sys.stdin.buffer.read())
    made = {"sure": sure, "spots": spots}[name]
    html = in_words(made, JobAt("", Path(given["file"]), False), given["text"], {})
    sys.stdout.buffer.write(html.encode("utf-8"))


if __name__ == "__main__":
    main(sys.argv[1])
