"""Drafts are kept: step by step, back and forth, by two at once, and after a sudden end."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lakewright.book.drafts import Book, Draft
from lakewright.errors import AskError


def now(book: Book, file: Path) -> Draft:
    with book.draft_of(file) as kept:
        found = kept.now()
    assert found is not None
    return found


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Book]:
    opened = Book(tmp_path / "folder" / "book.sqlite")
    yield opened
    opened.close()


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "job.toml"


def begun(book: Book, file: Path, *texts: str) -> None:
    with book.draft_of(file) as kept:
        kept.begin(texts[0])
        for text in texts[1:]:
            kept.put(text, False)


def test_before_the_first_there_is_none(book: Book, file: Path) -> None:
    with book.draft_of(file) as kept:
        assert kept.now() is None


def test_a_draft_goes_back_and_forth(book: Book, file: Path) -> None:
    begun(book, file, "a", "b", "c")
    seen = []
    for way in ("undo", "undo", "undo", "redo", "redo", "redo"):
        with book.draft_of(file) as kept:
            getattr(kept, way)()
        found = now(book, file)
        seen.append((found.text, found.has_before, found.has_after))
    assert seen == [("b", True, True), ("a", False, True), ("a", False, True), ("b", True, True),
                    ("c", True, False), ("c", True, False)]  # fmt: skip


def test_redo_goes_the_way_that_was_gone_last(book: Book, file: Path) -> None:
    begun(book, file, "a", "b")
    with book.draft_of(file) as kept:
        kept.undo()
        kept.put("d", False)
        kept.undo()
        kept.redo()
    assert now(book, file).text == "d"


def test_typing_that_goes_on_is_one_step(book: Book, file: Path) -> None:
    begun(book, file, "a", "a1")
    with book.draft_of(file) as kept:
        kept.put("a16", True)
        kept.put("a165", True)
        kept.undo()
    assert now(book, file).text == "a"


def test_what_says_the_same_is_no_step(book: Book, file: Path) -> None:
    begun(book, file, "a", "a")
    assert not now(book, file).has_before


def test_a_draft_begun_anew_has_the_old_one_behind_it(book: Book, file: Path) -> None:
    begun(book, file, "a", "b")
    with book.draft_of(file) as kept:
        kept.begin("from the disk")
    assert not now(book, file).is_changed
    with book.draft_of(file) as kept:
        kept.undo()
    found = now(book, file)
    assert (found.text, found.base, found.is_changed) == ("b", "from the disk", True)


def test_files_keep_apart(book: Book, tmp_path: Path) -> None:
    begun(book, tmp_path / "one.toml", "a", "b")
    begun(book, tmp_path / "two.toml", "c")
    with book.draft_of(tmp_path / "two.toml") as kept:
        kept.undo()
    assert now(book, tmp_path / "one.toml").text == "b"
    assert now(book, tmp_path / "two.toml").text == "c"


def test_a_change_that_fails_changes_nothing(book: Book, file: Path) -> None:
    begun(book, file, "a")

    def change_and_fail() -> None:
        with book.draft_of(file) as kept:
            kept.put("b", False)
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        change_and_fail()
    assert now(book, file).text == "a"


@given(st.lists(st.sampled_from(["undo", "redo", "x", "y", "z"]), max_size=30))
@pytest.mark.law
def test_undo_and_redo_are_those_of_a_list(tmp_path_factory: pytest.TempPathFactory, ways: list[str]) -> None:
    folder = tmp_path_factory.mktemp("book")
    book, file = Book(folder / "book.sqlite"), folder / "job.toml"
    begun(book, file, "0")
    steps, at = ["0"], 0
    with book.draft_of(file) as kept:
        for n, way in enumerate(ways):
            if way == "undo":
                kept.undo()
                at = max(at - 1, 0)
            elif way == "redo":
                kept.redo()
                at = min(at + 1, len(steps) - 1)
            else:
                kept.put(f"{way}{n}", False)
                steps[at + 1 :] = [f"{way}{n}"]
                at += 1
            found = kept.now()
            assert found is not None
            assert (found.text, found.has_before, found.has_after) == (steps[at], at > 0, at < len(steps) - 1)
    book.close()


ENDLESS = """
import sys
from pathlib import Path
from lakewright.book.drafts import Book
book = Book(Path(sys.argv[1]))
for n in range(10**6):
    with book.draft_of(Path(sys.argv[2])) as kept:
        kept.put(f"step {n}", False)
    print(n, flush=True)
"""


def test_what_was_kept_outlives_a_kill(book: Book, file: Path) -> None:
    begun(book, file, "a")
    env = {**os.environ, "PYTHONPATH": os.pathsep.join(path for path in sys.path if path)}
    command = [sys.executable, "-c", ENDLESS, str(book.path), str(file)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env=env) as writer:
        assert writer.stdout is not None
        last = -1
        for line in writer.stdout:
            last = int(line)
            if last == 20:
                writer.send_signal(signal.SIGKILL)
        writer.wait()
    kept = int(now(book, file).text.removeprefix("step "))
    # The kill may come between keeping a step and saying so.
    assert kept in (last, last + 1)


@pytest.mark.message
def test_a_book_that_cannot_be_is_told_with_what_to_do(tmp_path: Path) -> None:
    (tmp_path / "no folder").write_text("", encoding="utf-8")
    with pytest.raises(AskError, match="name another with --book, in a folder you can write in"):
        Book(tmp_path / "no folder" / "book.sqlite")
    (tmp_path / "text.sqlite").write_text("this is no book" * 100, encoding="utf-8")
    with pytest.raises(AskError, match="file is not a database"):
        Book(tmp_path / "text.sqlite")


def test_two_programs_write_one_after_the_other(book: Book, file: Path) -> None:
    begun(book, file, "0")
    other = Book(book.path)

    def add(to: Book) -> None:
        for _ in range(50):
            with to.draft_of(file) as kept:
                found = kept.now()
                assert found is not None
                kept.put(str(int(found.text) + 1), False)

    with ThreadPoolExecutor(4) as pool:
        for done in [pool.submit(add, each) for each in (book, other, book, other)]:
            done.result()
    other.close()
    assert now(book, file).text == "200"


def test_a_draft_of_a_file_that_is_not_there_is_changed_from_the_first(book: Book, file: Path) -> None:
    with book.draft_of(file) as kept:
        kept.begin("one", base="")
    assert now(book, file).is_changed
    assert not now(book, file).has_before
    other = file.with_name("other.toml")
    begun(book, other, "two")
    assert book.files() == [other.resolve(), file.resolve()]
