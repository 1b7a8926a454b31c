"""The door of import: whatever is done to the files, it takes them all in, or says what is wrong and takes in none."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from lakewright.book.plain_files import export, take_in
from lakewright.errors import AskError
from tests.book.made import fill, opened

PIECES = (
    "",
    ",",
    '"',
    "\n",
    "\r",
    "'",
    "=",
    "0",
    "-1",
    "1e999",
    "nan",
    "9" * 30,
    "\0",
    "é",
    "../",
    "x" * 200,
    "1,1,1\n",
)


@pytest.fixture(scope="module")
def out(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("import")
    with opened(folder / "book.sqlite") as book:
        fill(book)
        with book.reading() as rows:
            export(rows, folder / "out")
    return folder / "out"


@given(st.data())
@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@pytest.mark.law
def test_whatever_is_done_to_the_files(out: Path, tmp_path: Path, data: st.DataObject) -> None:
    for old in tmp_path.iterdir():
        shutil.rmtree(old) if old.is_dir() else old.unlink()
    folder = tmp_path / "files"
    shutil.copytree(out, folder)
    names = sorted(str(path.relative_to(folder)) for path in folder.rglob("*.*") if path.is_file())
    for _ in range(data.draw(st.integers(1, 3))):
        file = folder / data.draw(st.sampled_from(names))
        raw = file.read_bytes()
        start = data.draw(st.integers(0, len(raw)))
        end = data.draw(st.integers(start, min(start + 20, len(raw))))
        piece = data.draw(st.one_of(st.sampled_from(PIECES).map(str.encode), st.binary(max_size=8)))
        file.write_bytes(raw[:start] + piece + raw[end:])
    with opened(tmp_path / "new.sqlite") as book:
        try:
            with book.writing() as rows:
                take_in(rows, folder)
        except AskError:
            with book.reading() as rows:
                assert rows.execute("select count(*) from papers").fetchone() == (0,)
        else:
            with book.reading() as rows:
                export(rows, tmp_path / "again")
