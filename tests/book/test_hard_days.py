"""A full disk, a folder that cannot be written, a book that another holds: nothing kept is lost."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from lakewright.book import papers
from lakewright.book.file import BookFile
from lakewright.errors import AskError
from tests.book.made import edit, opened

ROOT = Path(__file__).resolve().parents[2]

FILLS = """
import resource, signal, sys
from pathlib import Path
from lakewright.book import papers
from lakewright.book.file import BookFile
from lakewright.book.papers import Edit
from lakewright.errors import AskError
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
resource.setrlimit(resource.RLIMIT_FSIZE, (400_000, 400_000))
book, revision = BookFile(Path(sys.argv[1])), 1
try:
    while True:
        with book.writing() as rows:
            text = f"{revision}\\n" * 3000
            kept = papers.save(rows, "job", "Heron Point", revision, Edit(text, "Ann", "2026-05-03"))
        revision = kept.revision
except AskError as error:
    print(revision, error)
with book.reading() as rows:
    print(papers.latest(rows, "job", "Heron Point").revision)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="a limit on the size of files is the system's")
def test_a_full_disk_loses_nothing_that_was_acknowledged(tmp_path: Path) -> None:
    path = tmp_path / "book.sqlite"
    with opened(path) as book, book.writing() as rows:
        papers.add(rows, "job", "Heron Point", edit("a"))
    done = subprocess.run(
        [sys.executable, "-c", FILLS, str(path)], capture_output=True, text=True, cwd=ROOT, check=True, timeout=60
    )
    said, after = done.stdout.splitlines()
    last = int(said.split()[0])
    assert last > 5
    assert int(after) == last
    assert "what was in the book before is still there" in said
    with opened(path) as book, book.writing() as rows:
        assert papers.latest(rows, "job", "Heron Point").revision == last
        assert papers.save(rows, "job", "Heron Point", last, edit("there is room again")).revision == last + 1
        assert rows.execute("pragma integrity_check").fetchall() == [("ok",)]


@pytest.mark.message
def test_a_folder_that_cannot_be_written_is_said(tmp_path: Path) -> None:
    # Whoever may write everywhere cannot make a folder of a file either.
    (tmp_path / "file").write_text("in the folder's place")
    for path in (tmp_path / "file" / "book.sqlite", Path("/proc/book.sqlite")):
        with pytest.raises(AskError, match="name another with --book, in a folder you can write in"):
            BookFile(path)
    with pytest.raises(AskError, match="cannot be used"):
        BookFile(tmp_path)


@pytest.mark.message
def test_a_file_that_is_no_book_is_left_alone_and_the_last_backup_named(tmp_path: Path) -> None:
    path = tmp_path / "letter.txt"
    path.write_bytes(b"Dear Ann, the ice is out. " * 200)
    before = path.read_bytes()
    with pytest.raises(AskError) as found:
        BookFile(path)
    assert str(found.value).endswith(
        "file is not a database; name another file with --book, or restore the last backup"
    )
    assert path.read_bytes() == before


@pytest.mark.message
def test_a_book_that_another_writes_for_too_long_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("lakewright.book.file.PATIENCE", 0.05)
    path = tmp_path / "book.sqlite"
    with opened(path) as book, opened(path) as other, book.writing() as rows:
        papers.add(rows, "job", "Heron Point", edit("a"))
        with pytest.raises(AskError, match="another program is writing for too long"), other.writing():
            pass
        with other.reading() as seen:
            assert papers.names(seen, "job") == []


def test_odd_file_names_are_files(tmp_path: Path) -> None:
    for name in ("bo ok.sqlite", "büch?x=1.sqlite", "%41;--.sqlite", "'a\"b.sqlite", "file:x"):
        with opened(tmp_path / name) as book, book.writing() as rows:
            papers.add(rows, "job", "Heron Point", edit("a"))
        assert (tmp_path / name).is_file()
