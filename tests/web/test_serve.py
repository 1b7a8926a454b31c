"""`lakewright serve` as a program: the port it takes, the port it cannot have, and how it ends."""

from __future__ import annotations

import signal
import socket
import subprocess
import sys
from urllib.request import urlopen

import httpx
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


@pytest.mark.message
@pytest.mark.parametrize("listen", ["0.0.0.0", "::", ""])
def test_an_address_that_is_none_in_particular_is_refused(listen: str) -> None:
    command = [sys.executable, "-m", "lakewright", "serve", "--port", "0", "--listen", listen]
    done = subprocess.run(command, capture_output=True, text=True, timeout=30, check=False)
    assert done.returncode == 2
    assert "wanted the one address of this machine by which others reach it" in done.stderr


def test_others_are_answered_where_that_is_asked_and_by_token_alone(own_server: Server) -> None:
    # Another address of this machine's own: nothing leaves it.
    command = [sys.executable, "-u", "-m", "lakewright", "serve", str(own_server.file), "--port", "0"]
    command += ["--listen", "127.0.0.2", "--book", str(own_server.file.with_suffix(".sqlite"))]
    process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    try:
        assert process.stdout is not None
        address = process.stdout.readline().split(" is at ")[1].split(";")[0]
        page, _, token = address.partition("?token=")
        assert len(token) >= 32
        assert httpx.get(page).status_code == 401
        with httpx.Client(follow_redirects=True) as browser:
            found = browser.get(address)
            assert "Heron Point cabin" in found.text
            assert str(found.url) == page
        with pytest.raises(httpx.ConnectError):
            httpx.get(page.replace("127.0.0.2", "127.0.0.1"))
    finally:
        process.send_signal(signal.SIGINT)
        process.communicate(timeout=20)
    assert process.returncode == 0
