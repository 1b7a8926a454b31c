"""Runs the page's server on this machine."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from lakewright.errors import AskError
from lakewright.job.read import read_text

HOST = "127.0.0.1"


def serve(file: Path, port: int, ready: Callable[[str], None]) -> None:
    """Serve the page of a job file until the program is stopped.

    Raises
    ------
    JobError where the file is not there or is no text
    AskError where what serves a page is not installed
    """
    text = read_text(file)
    try:
        import jinja2  # noqa: F401  # asked for here, so that its absence is told before the first page
        import uvicorn

        from lakewright.web.app import app_of
    except ImportError as error:
        raise AskError(
            f"the page needs {error.name}, which is not installed; install lakewright with its extra: "
            "pip install 'lakewright[page]'"
        ) from None
    hosts = frozenset({f"{HOST}:{port}", f"localhost:{port}"})
    ready(f"http://{HOST}:{port}/")
    uvicorn.run(app_of(file, text, hosts), host=HOST, port=port, log_level="warning", server_header=False)
