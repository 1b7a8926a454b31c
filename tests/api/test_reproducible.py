"""The same job and version give the same bytes, whatever the hash seed, the hour, the folder and the time zone."""

from __future__ import annotations

import hashlib
import io
import os
import re
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from lakewright.api.packet import NAMES, packet
from tests.job.example import EXAMPLE

pytestmark = pytest.mark.law

JOBS = ("year_round_cabin", pytest.param("stream_irrigation", marks=pytest.mark.slow))
WRITE = """
import sys
from pathlib import Path
from lakewright.api.packet import packet
packet(Path(sys.argv[1]), Path(sys.argv[2]), everything=True)
"""


def written(name: str, folder: Path, seed: str, zone: str) -> dict[str, str]:
    """The files of a packet with everything, by name, each by what is in it."""
    folder.mkdir()
    environment = {**os.environ, "PYTHONHASHSEED": seed, "TZ": zone, "PYTHONPATH": os.pathsep.join(sys.path)}
    job = str(EXAMPLE.parent / f"{name}.toml")
    subprocess.run([sys.executable, "-c", WRITE, job, str(folder)], env=environment, cwd=folder, check=True)
    return {file.name: hashlib.sha256(file.read_bytes()).hexdigest() for file in sorted(folder.iterdir())}


@pytest.mark.parametrize("name", JOBS)
def test_two_processes_write_the_same_bytes(tmp_path: Path, name: str) -> None:
    # A process takes longer than the two seconds by which a zip file counts.
    first = written(name, tmp_path / "one", "0", "UTC")
    second = written(name, tmp_path / "another", "4242", "Pacific/Auckland")
    assert first == second
    assert len(first) > len(NAMES)


def test_no_file_tells_when_or_where_it_was_written(tmp_path: Path) -> None:
    for file in packet(EXAMPLE, tmp_path, everything=True):
        content = file.read_bytes()
        if content[:2] == b"PK":
            with zipfile.ZipFile(io.BytesIO(content)) as book:
                assert {entry.date_time for entry in book.infolist()} == {(1980, 1, 1, 0, 0, 0)}
                content = b"".join(book.read(entry) for entry in book.infolist())
        assert str(tmp_path).encode() not in content
        if file.suffix == ".pdf":
            assert re.search(rb"/(CreationDate|ModDate)", content) is None
