"""A disk that is full, and a folder that cannot be written: what was there is kept, nothing is left half written."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
EXAMPLES = ROOT / "examples"

FULL = """
import resource, signal, sys
from lakewright.cli import main
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
room = int(sys.argv[1])
resource.setrlimit(resource.RLIMIT_FSIZE, (room, room))
sys.exit(main(sys.argv[2:]))
"""

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="a limit on the size of files is the system's")


def on_a_full_disk(room: int, *arguments: str | Path, typed: str = "") -> tuple[int, str]:
    """A command where no file may be larger than so many bytes: its end, and what it said of it."""
    done = subprocess.run(
        [sys.executable, "-c", FULL, str(room), *map(str, arguments)],
        input=typed,
        capture_output=True,
        text=True,
        cwd=ROOT,
        check=False,
        timeout=120,
    )
    assert "Traceback" not in done.stderr, done.stderr
    return done.returncode, done.stderr


def held(folder: Path) -> dict[str, bytes]:
    """Every file of a folder, the hidden ones too."""
    return {file.name: file.read_bytes() for file in folder.iterdir() if file.is_file()}


def test_a_packet_leaves_what_was_printed_before(tmp_path: Path) -> None:
    for end in ("packet.pdf", "section.svg", "parts.csv"):
        (tmp_path / f"year_round_cabin-{end}").write_text(f"the old {end}", encoding="utf-8")
    before = held(tmp_path)
    # There is room for the section and the parts, and not for the sheet's type.
    code, said = on_a_full_disk(30_000, "packet", EXAMPLES / "year_round_cabin.toml", "--over", "--to", tmp_path)
    assert code == 2
    assert said == f"{tmp_path}: file too large; name another folder with --to, where there is room to write\n"
    assert held(tmp_path) == before


def test_a_pick_is_not_half_written(tmp_path: Path) -> None:
    code, said = on_a_full_disk(
        100, "design", EXAMPLES / "year_round_cabin_open.toml", "--to", tmp_path / "picked.toml"
    )
    assert (code, "name a file in a folder you can write in" in said) == (2, True)
    assert held(tmp_path) == {}


def test_new_leaves_no_half_of_a_file(tmp_path: Path) -> None:
    code, said = on_a_full_disk(10, "new", tmp_path / "caller.toml", typed="Long Arm\nlake\n")
    assert (code, "wanted a folder to write in" in said) == (2, True)
    assert held(tmp_path) == {}


def test_a_sweep_keeps_its_record_and_its_old_tables(tmp_path: Path) -> None:
    jobs, swept = tmp_path / "jobs", tmp_path / "swept"
    jobs.mkdir()
    swept.mkdir()
    shutil.copy(EXAMPLES / "stock_tank.toml", jobs)
    (swept / "outcomes.csv").write_text("the old table", encoding="utf-8")
    code, said = on_a_full_disk(800, "sweep", jobs, "--to", swept)
    assert code == 2
    assert "file too large" in said
    assert (swept / "outcomes.csv").read_text(encoding="utf-8") == "the old table"
    assert {file.name for file in swept.iterdir()} <= {"outcomes.csv", "record.jsonl"}
    again = subprocess.run(
        [sys.executable, "-m", "lakewright", "sweep", jobs, "--to", swept], capture_output=True, cwd=ROOT, check=False
    )
    assert again.returncode == 0, again.stderr
    assert b"stock_tank" in (swept / "outcomes.csv").read_bytes()


@pytest.mark.message
@pytest.mark.parametrize(
    "arguments",
    [
        ("packet", EXAMPLES / "stock_tank.toml", "--to"),
        ("sweep", EXAMPLES / "sweep", "--no-parquet", "--to"),
        ("design", EXAMPLES / "stock_tank.toml", "--to"),
        ("new",),
    ],
    ids=lambda each: str(each[0]),
)
@pytest.mark.parametrize("place", ["file/inside", "/proc/nowhere"], ids=["a file for a folder", "no folder of ours"])
def test_a_folder_that_cannot_be_written_is_said(tmp_path: Path, arguments: tuple[str | Path, ...], place: str) -> None:
    # Whoever may write everywhere cannot make a folder of a file either, nor one in /proc.
    (tmp_path / "file").write_text("in the folder's place", encoding="utf-8")
    code, said = on_a_full_disk(10_000_000, *arguments, tmp_path / place)
    assert code == 2
    assert str(place.partition("/")[0] or "/proc") in said
    assert held(tmp_path) == {"file": b"in the folder's place"}
