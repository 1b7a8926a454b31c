"""Runs the page's server on this machine."""

from __future__ import annotations

import gc
import os
import secrets
import socket
from collections.abc import Callable
from contextlib import closing, suppress
from pathlib import Path

from lakewright.api.drafts import Book, draft
from lakewright.errors import AskError

HOST = "127.0.0.1"
PATIENCE = 1
"""ours: so long an answer under way is waited for when the program is stopped [s]."""


def serve(
    file: Path,
    port: int,
    ready: Callable[[str], None],
    book_at: Path,
    may_write: bool,
    folder: Path | None = None,
    listen: str = HOST,
) -> None:
    """Serve the page of a job file until the program is stopped.

    Parameters
    ----------
    file : the job file
    port : where it answers on this machine; 0 for any that is free
    ready : called with its address, which holds the token where others than this machine are answered
    book_at : where drafts are kept
    may_write : whether the draft may be written to the file, where that is asked on the page
    folder : where jobs begun on the page would stand; beside the file if not said
    listen : the address of this machine that others ask; nobody else is answered if not said

    Raises
    ------
    JobError where the file is not there or is no text
    AskError where what serves a page is not installed, or port or book cannot be had
    """
    try:
        import jinja2  # noqa: F401  # asked for here, so that its absence is told before the first page
        import uvicorn

        from lakewright.web.app import app_of
        from lakewright.web.jobs import Jobs
        from lakewright.web.view import Asked, pieces
    except ImportError as error:
        raise AskError(
            f"the page needs {error.name}, which is not installed; install lakewright with its extra: "
            "pip install 'lakewright[page]'"
        ) from None
    _refuse_everywhere(listen)
    with _listening(listen, port) as listener, closing(Book(book_at)) as book:
        # What every answer needs is read before the first is asked for, and is not gone through for litter again.
        pieces(draft(book, file).text, Asked(), file)
        gc.collect()
        gc.freeze()
        port = listener.getsockname()[1]
        token = "" if listen == HOST else secrets.token_urlsafe(24)
        names = (HOST, "localhost") if listen == HOST else (listen,)
        config = uvicorn.Config(
            app_of(Jobs(file, book, may_write, folder), frozenset(f"{name}:{port}" for name in names), token),
            log_level="warning",
            access_log=False,
            server_header=False,
            timeout_graceful_shutdown=PATIENCE,
        )
        ready(f"http://{names[0]}:{port}/{f'?token={token}' if token else ''}")
        with suppress(KeyboardInterrupt):
            uvicorn.Server(config).run(sockets=[listener])


def _refuse_everywhere(listen: str) -> None:
    """Refuse an address that is none in particular: the page answers by the name it is asked by, and by no other."""
    if listen in ("", "0.0.0.0", "::", "*"):
        raise AskError(
            f"found --listen {listen or 'nothing'}; wanted the one address of this machine by which others reach it, "
            "such as 192.168.1.20; without --listen only this machine is answered"
        )


def _listening(host: str, port: int) -> socket.socket:
    """A socket that holds the port, so that nobody else can take it between asking and answering."""
    # Named as TCP, for only then are answers sent at once; else each waits 40 ms for the browser to confirm its head.
    listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    try:
        if os.name == "posix":
            listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        listener.bind((host, port))
        listener.listen()
    except (OSError, OverflowError) as error:
        listener.close()
        number = getattr(error, "errno", None)
        reason = os.strerror(number) if number else str(error)
        raise AskError(
            f"port {port} of {host} cannot be had: {reason.lower()}; end the program that has it, or name another "
            "with --port, or --port 0 for any that is free"
        ) from None
    return listener
