"""Runs the page's server on this machine."""

from __future__ import annotations

import gc
import os
import socket
from collections.abc import Callable
from contextlib import closing, suppress
from pathlib import Path

from lakewright.api.drafts import Book, draft
from lakewright.errors import AskError

HOST = "127.0.0.1"
PATIENCE = 1
"""ours: so long an answer under way is waited for when the program is stopped [s]."""


def serve(file: Path, port: int, ready: Callable[[str], None], book_at: Path, may_write: bool) -> None:
    """Serve the page of a job file until the program is stopped.

    Parameters
    ----------
    file : the job file
    port : where it answers on this machine; 0 for any that is free
    ready : called with its address
    book_at : where its draft is kept
    may_write : whether the draft may be written to the file, where that is asked on the page

    Raises
    ------
    JobError where the file is not there or is no text
    AskError where what serves a page is not installed, or port or book cannot be had
    """
    try:
        import jinja2  # noqa: F401  # asked for here, so that its absence is told before the first page
        import uvicorn

        from lakewright.web.app import app_of
        from lakewright.web.view import Asked, pieces
    except ImportError as error:
        raise AskError(
            f"the page needs {error.name}, which is not installed; install lakewright with its extra: "
            "pip install 'lakewright[page]'"
        ) from None
    with _listening(port) as listener, closing(Book(book_at)) as book:
        # What every answer needs is read before the first is asked for, and is not gone through for litter again.
        pieces(draft(book, file).text, Asked(), file)
        gc.collect()
        gc.freeze()
        port = listener.getsockname()[1]
        hosts = frozenset({f"{HOST}:{port}", f"localhost:{port}"})
        config = uvicorn.Config(
            app_of(file, book, hosts, may_write),
            log_level="warning",
            access_log=False,
            server_header=False,
            timeout_graceful_shutdown=PATIENCE,
        )
        ready(f"http://{HOST}:{port}/")
        with suppress(KeyboardInterrupt):
            uvicorn.Server(config).run(sockets=[listener])


def _listening(port: int) -> socket.socket:
    """A socket that holds the port, so that nobody else can take it between asking and answering."""
    # Named as TCP, for only then are answers sent at once; else each waits 40 ms for the browser to confirm its head.
    listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    try:
        if os.name == "posix":
            listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        listener.bind((HOST, port))
        listener.listen()
    except (OSError, OverflowError) as error:
        listener.close()
        number = getattr(error, "errno", None)
        reason = os.strerror(number) if number else str(error)
        raise AskError(
            f"port {port} of {HOST} cannot be had: {reason.lower()}; end the program that has it, or name another "
            "with --port, or --port 0 for any that is free"
        ) from None
    return listener
