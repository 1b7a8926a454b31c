"""What a job wrote is made anew; what is not its own is never written over unless that is asked."""

from __future__ import annotations

from pathlib import Path

import pytest

from lakewright.api.own_files import put_own
from lakewright.errors import AskError

FILES = {"a.pdf": b"one", "b.csv": b"two"}


def held(folder: Path) -> dict[str, bytes]:
    return {file.name: file.read_bytes() for file in folder.iterdir() if not file.name.startswith(".")}


@pytest.mark.law
def test_its_own_is_made_anew_and_what_stays_the_same_is_nobodys_business(tmp_path: Path) -> None:
    to, job = tmp_path / "papers", tmp_path / "job.toml"
    assert put_own(to, FILES, job, "packet", over=False) == (to / "a.pdf", to / "b.csv")
    put_own(to, {"a.pdf": b"new"}, job, "packet", over=False)
    put_own(to, {"b.csv": b"new too"}, job, "packet", over=False)
    assert held(to) == {"a.pdf": b"new", "b.csv": b"new too"}
    # Another may write what stands there already.
    put_own(to, {"a.pdf": b"new"}, tmp_path / "other.toml", "packet", over=False)


@pytest.mark.message
@pytest.mark.parametrize("how", ["another's", "changed", "record gone", "record broken", "same name elsewhere"])
def test_what_is_not_its_own_stays(tmp_path: Path, how: str) -> None:
    to, job = tmp_path / "papers", tmp_path / "job.toml"
    put_own(to, FILES, job, "packet", over=False)
    if how == "another's":
        job = tmp_path / "other.toml"
    elif how == "changed":
        for name in FILES:
            (to / name).write_bytes(b"filled in by hand")
    elif how == "record gone":
        (to / ".job-packet.json").unlink()
    elif how == "record broken":
        (to / ".job-packet.json").write_text("[" * 9, encoding="utf-8")
    else:
        job = tmp_path / "deeper" / "job.toml"
    before = held(to)
    anew = dict.fromkeys(FILES, b"anew")
    with pytest.raises(AskError) as told:
        put_own(to, anew, job, "packet", over=False)
    assert str(told.value) == (
        f"{to}: found a.pdf, b.csv, which this job did not make or somebody has changed since; "
        "name another folder with --to, or write over with --over"
    )
    assert held(to) == before
    put_own(to, anew, job, "packet", over=True)
    assert held(to) == anew


@pytest.mark.law
def test_a_folder_in_the_place_of_a_file_is_said(tmp_path: Path) -> None:
    (tmp_path / "a.pdf").mkdir()
    with pytest.raises(AskError, match="is a folder"):
        put_own(tmp_path, FILES, None, "survey", over=True)
    assert not (tmp_path / "b.csv").exists()
