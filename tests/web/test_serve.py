"""`lakewright serve` as a program: the port it takes, the port it cannot have, and how it ends."""

from __future__ import annotations

import signal
import socket
import subprocess
import sys
from urllib.request import urlopen

import pytest

from tests.web.conftest import Server

pytestmark = pytest.mark.serial


def test_it_ends_quietly_when_it_is_told_to(own_server: Server) -> None:
    own_server.start()
    with urlopen(own_server.address) as answer:
        assert b"Heron Point cabin" in answer.read()
    assert own_server.stop(signal.SIGINT) == (0, "")


@pytest.mark.message
def test_a_port_that_is_taken_is_told_with_what_to_do() -> None:
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = str(taken.getsockname()[1])
        command = [sys.executable, "-m", "lakewright", "serve", "--port", port]
        done = subprocess.run(command, capture_output=True, text=True, timeout=30, check=False)
    assert done.returncode == 2
    assert done.stderr == (
        f"port {port} of 127.0.0.1 cannot be had: address already in use; end the program that has it, or name another "
        "with --port, or --port 0 for any that is free\n"
    )


@pytest.mark.message
@pytest.mark.parametrize("port", ["70000", "-1"])
def test_a_port_that_is_none_is_refused(port: str) -> None:
    command = [sys.executable, "-m", "lakewright", "serve", f"--port={port}"]
    done = subprocess.run(command, capture_output=True, text=True, timeout=30, check=False)
    assert done.returncode == 2
    assert f"port {port} of 127.0.0.1 cannot be had" in done.stderr
    assert "Traceback" not in done.stderr
