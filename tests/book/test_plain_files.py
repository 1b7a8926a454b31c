"""Export, import, backup and restore: the same bytes, none led astray, none half done."""

from __future__ import annotations

import threading
from pathlib import Path

import pytest

from lakewright.book import papers
from lakewright.book.copies import back_up, restore
from lakewright.book.file import BookFile
from lakewright.book.plain_files import export, take_in
from lakewright.book.rows import bare, inert, read, written
from lakewright.errors import AskError
from tests.book.made import ODD_NAMES, edit, fill, opened


def all_files(folder: Path) -> dict[str, bytes]:
    return {str(file.relative_to(folder)): file.read_bytes() for file in sorted(folder.rglob("*")) if file.is_file()}


@pytest.fixture
def out(tmp_path: Path) -> Path:
    with opened(tmp_path / "one.sqlite") as book:
        fill(book)
        with book.reading() as rows:
            export(rows, tmp_path / "out")
    return tmp_path / "out"


def taken(tmp_path: Path, folder: Path) -> BookFile:
    book = BookFile(tmp_path / "two.sqlite")
    with book.writing() as rows:
        take_in(rows, folder)
    return book


def test_what_goes_out_comes_in_and_goes_out_to_the_same_bytes(tmp_path: Path, out: Path) -> None:
    book = taken(tmp_path, out)
    with book.reading() as rows:
        count = export(rows, tmp_path / "again")
        assert papers.names(rows, "job") == ["Heron Point", *ODD_NAMES]
    book.close()
    assert all_files(tmp_path / "again") == all_files(out)
    assert count == len(all_files(out))


def test_line_ends_of_another_system_are_taken_in(tmp_path: Path, out: Path) -> None:
    before = all_files(out)
    for name in ("papers.csv", "standings.csv"):
        (out / name).write_bytes(b"\xef\xbb\xbf" + before[name].replace(b"\n", b"\r\n"))
    book = taken(tmp_path, out)
    with book.reading() as rows:
        export(rows, tmp_path / "again")
    book.close()
    assert all_files(tmp_path / "again") == before


def test_no_odd_name_leads_out_of_the_folder(out: Path) -> None:
    folders = sorted(path.name for path in (out / "jobs").iterdir())
    assert len(folders) == len(ODD_NAMES) + 1
    assert all(name[:4].isdigit() and len(name) <= 45 and name.isascii() for name in folders)
    assert not any(set(name) & set('/\\:*?"<>|. ') for name in folders)


@pytest.mark.parametrize("cell", ["=1+1", "+1", "-1", "@x", "\tx", "\rx", "\nx", "'", "''=", "plain", "", " =1"])
def test_no_cell_runs_in_a_spreadsheet(cell: str) -> None:
    text = written(["a"], [[cell], ["x"]])
    assert read(text)[1][1:] == ([cell],) if cell else True
    assert bare(inert(cell)) == cell
    assert not inert(cell).startswith(("=", "+", "-", "@", "\t", "\r", "\n"))


@pytest.mark.message
@pytest.mark.parametrize(
    "name, old, new, words",
    [
        ("book.toml", "version = 2", "version = 9", "wanted that of an export of version 2"),
        ("papers.csv", "1,job,Heron Point", "1,boat,Heron Point", "line 2: found the kind 'boat'"),
        ("papers.csv", "1,job,Heron Point", "../1,job,Heron Point", "line 2: found '../1'; wanted a whole number"),
        ("papers.csv", "2,water,", "1,water,", "line 3: UNIQUE constraint failed"),
        ("papers.csv", "number,kind", "kind,number", "line 1: wanted the columns number, kind, name"),
        ("revisions.csv", "1,1,1,", "1,77,1,", "found the paper '77'"),
        ("revisions.csv", "1,1,1,", "1,1,3,", "No such file or directory"),
        ("standings.csv", "asked", "sold", "line 2: found 'sold'; wanted one of: asked"),
        ("standings.csv", "1,1,asked", "1,500,asked", "FOREIGN KEY"),
        ("visits.csv", "0.3333333333333333", "many", "could not convert"),
        ("visits.csv", "0.3333333333333333", "inf", "wanted a number over 0"),
        ("orders.csv", "30.48", "nan", "wanted a number over 0"),
    ],
)
def test_files_that_cannot_be_used_leave_the_book_empty(
    tmp_path: Path, out: Path, name: str, old: str, new: str, words: str
) -> None:
    file = out / name
    text = file.read_bytes().decode()
    assert old in text
    file.write_bytes(text.replace(old, new, 1).encode())
    with opened(tmp_path / "two.sqlite") as book:
        with pytest.raises(AskError, match=words), book.writing() as rows:
            take_in(rows, out)
        with book.reading() as rows:
            assert papers.names(rows, "job") == []


def test_a_link_out_of_the_folder_is_not_followed(tmp_path: Path, out: Path) -> None:
    secret = tmp_path / "secret.csv"
    secret.write_text("number,kind,name\n")
    (out / "papers.csv").unlink()
    (out / "papers.csv").symlink_to(secret)
    with (
        opened(tmp_path / "two.sqlite") as book,
        pytest.raises(AskError, match="leads out of the folder"),
        book.writing() as rows,
    ):
        take_in(rows, out)


@pytest.mark.message
def test_nothing_is_written_over(tmp_path: Path, out: Path) -> None:
    with opened(tmp_path / "one.sqlite") as book:
        with pytest.raises(AskError, match="is there already; name a new folder"), book.reading() as rows:
            export(rows, out)
        with pytest.raises(AskError, match="the book has papers already"), book.writing() as rows:
            take_in(rows, out)
        with pytest.raises(AskError, match="is there already; name a new file"):
            back_up(book, tmp_path / "one.sqlite")


def test_a_backup_is_whole_while_others_write(tmp_path: Path) -> None:
    path, stop = tmp_path / "book.sqlite", threading.Event()
    with opened(path) as book, book.writing() as rows:
        papers.add(rows, "job", "Heron Point", edit("0"))

    def write() -> None:
        with opened(path) as book:
            revision = 1
            while not stop.is_set():
                with book.writing() as rows:
                    revision = papers.save(rows, "job", "Heron Point", revision, edit(f"{revision}\n" * 500)).revision

    writer = threading.Thread(target=write)
    writer.start()
    counts = []
    try:
        with opened(path) as book:
            for number in range(5):
                back_up(book, tmp_path / f"copy{number}.sqlite")
                with opened(tmp_path / f"copy{number}.sqlite") as copy, copy.reading() as rows:
                    kept = papers.revisions(rows, "job", "Heron Point")
                    counts.append(len(kept))
                    assert [each.revision for each in kept] == list(range(len(kept), 0, -1))
    finally:
        stop.set()
        writer.join()
    assert counts == sorted(counts)
    assert not list(tmp_path.glob(".*.part*"))


def test_a_book_is_brought_back_and_what_it_was_goes_aside(tmp_path: Path) -> None:
    path = tmp_path / "book.sqlite"
    with opened(path) as book, opened(path) as other:
        with book.writing() as rows:
            papers.add(rows, "job", "Heron Point", edit("a"))
        back_up(book, tmp_path / "copy.sqlite")
        with book.writing() as rows:
            papers.save(rows, "job", "Heron Point", 1, edit("b"))
        restore(book, tmp_path / "copy.sqlite", tmp_path / "aside.sqlite")
        # Whoever has it open sees it, and goes on.
        with other.writing() as rows:
            assert papers.latest(rows, "job", "Heron Point").text == "a"
            papers.save(rows, "job", "Heron Point", 1, edit("c"))
        with book.reading() as rows:
            assert papers.latest(rows, "job", "Heron Point").text == "c"
    with opened(tmp_path / "aside.sqlite") as aside, aside.reading() as rows:
        assert papers.latest(rows, "job", "Heron Point").text == "b"


@pytest.mark.message
def test_what_is_no_backup_is_not_brought_back(tmp_path: Path) -> None:
    with opened(tmp_path / "book.sqlite") as book:
        fill(book)
        back_up(book, tmp_path / "copy.sqlite")
        torn = (tmp_path / "copy.sqlite").read_bytes()
        (tmp_path / "torn.sqlite").write_bytes(torn[: len(torn) // 2])
        (tmp_path / "text.sqlite").write_text("no database" * 100)
        (tmp_path / "empty.sqlite").touch()
        for name in ("torn", "text", "empty", "none"):
            with pytest.raises(AskError):
                restore(book, tmp_path / f"{name}.sqlite", tmp_path / "aside.sqlite")
        with book.reading() as rows:
            assert papers.names(rows, "job")[0] == "Heron Point"
    assert not (tmp_path / "aside.sqlite").exists()
