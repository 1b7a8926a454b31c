"""Papers and revisions: what was kept stays, an edit on a stale revision is refused, and nothing is ever changed."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lakewright.book import papers
from lakewright.book.beside import _end, _regions, _start, beside
from lakewright.book.drafts import Book
from lakewright.book.file import BookFile
from lakewright.book.schema import APPEND_ONLY, DRAFTS, VERSION
from lakewright.errors import AskError, StaleError
from tests.book.editors import edited
from tests.book.kills import kills
from tests.book.made import ODD_TEXTS, edit, fill, opened
from tests.book.saver import is_whole, text_of


@pytest.fixture
def book(tmp_path: Path) -> Iterator[BookFile]:
    with opened(tmp_path / "book.sqlite") as found:
        yield found


def test_each_revision_is_kept_whole(book: BookFile) -> None:
    with book.writing() as rows:
        papers.add(rows, "job", "Heron Point", edit(ODD_TEXTS[0] + "a"))
        for number, text in enumerate(ODD_TEXTS, start=1):
            assert papers.save(rows, "job", "heron_point", number, edit(text)).revision == number + 1
    with book.reading() as rows:
        kept = papers.revisions(rows, "job", "HERON POINT")
    assert [each.text for each in kept] == [*ODD_TEXTS[::-1], "a"]
    assert {each.name for each in kept} == {"Heron Point"}


def test_what_says_the_same_is_no_revision(book: BookFile) -> None:
    with book.writing() as rows:
        papers.add(rows, "job", "Heron Point", edit("a"))
        papers.save(rows, "job", "Heron Point", 1, edit("b"))
        # Whoever was not told that it was kept may say it again.
        assert papers.save(rows, "job", "Heron Point", 1, edit("b")).revision == 2


@pytest.mark.message
def test_a_stale_edit_is_refused_and_shown_beside_the_other(book: BookFile) -> None:
    with book.writing() as rows:
        papers.add(rows, "job", "Heron Point", edit("a\nb\nc\nd\n"))
        papers.save(rows, "job", "Heron Point", 1, edit("a\nB\nc\nd\n"))
    with pytest.raises(StaleError) as refused, book.writing() as rows:
        papers.save(rows, "job", "Heron Point", 1, edit("a\nb2\nc\nd\ne\n"))
    assert refused.value.last == 2
    assert str(refused.value) == (
        "Heron Point has moved on since revision 1, and this edit is not kept: revision 2, by Ann, 2026-05-03 is the"
        " last. Put yours into that one, and save it on 2.\n"
        "Line 2, changed by them and by you\n"
        "  was     b\n"
        "  theirs  B\n"
        "  yours   b2\n"
        "Line 5, changed by you\n"
        "  was     (nothing)\n"
        "  theirs  (as it was)\n"
        "  yours   e"
    )
    with book.reading() as rows:
        assert papers.latest(rows, "job", "Heron Point").text == "a\nB\nc\nd\n"


def test_an_order_of_revisions_does_not_hang_on_the_clock(book: BookFile) -> None:
    with book.writing() as rows:
        papers.add(rows, "job", "Heron Point", edit("a", day="2026-05-03"))
        papers.save(rows, "job", "Heron Point", 1, edit("b", day="1999-01-01"))
        assert papers.latest(rows, "job", "Heron Point").text == "b"


@pytest.mark.message
def test_names_that_cannot_be_used_are_refused(book: BookFile) -> None:
    for name in ("", "  ", "_", "a\nb", "a\0b", "x" * 121, "\u202eabc"):
        with pytest.raises(AskError, match="wanted 1 to 120 letters on one line"), book.writing() as rows:
            papers.add(rows, "job", name, edit("a"))
    with book.writing() as rows:
        papers.add(rows, "job", "Heron Point", edit("a"))
        with pytest.raises(AskError, match="Heron point is in the book already"):
            papers.add(rows, "job", "Heron point", edit("b"))
        with pytest.raises(AskError, match=r"the book has no job 'Heron Pont'; did you mean Heron Point\?"):
            papers.latest(rows, "job", "Heron Pont")
        with pytest.raises(AskError, match="has no revision 2; it has 1 to 1"):
            papers.revision_of(rows, "job", "Heron Point", 2)
        with pytest.raises(AskError, match="zero byte"):
            papers.save(rows, "job", "Heron Point", 1, edit("a\0"))
        for note, words in (("\udcff", "what no letter"), ("\0", "what no letter"), ("x" * 10_001, "more than 10,000")):
            with pytest.raises(AskError, match=words):
                papers.save(rows, "job", "Heron Point", 1, edit("b", note=note))
        for day in ("2026-13-01", "yesterday", "20260503"):
            with pytest.raises(AskError, match="wanted one as 2026-08-14"):
                papers.save(rows, "job", "Heron Point", 1, edit("b", day=day))
        with pytest.raises(AskError, match="the book has no job"):
            papers.latest(rows, "job", "\udcff")


@pytest.mark.parametrize("table", APPEND_ONLY)
def test_no_row_is_ever_changed_or_taken_out(book: BookFile, table: str) -> None:
    fill(book)
    for statement in (f"update {table} set number = 99 where number = 1", f"delete from {table}"):
        with pytest.raises(AskError, match="is never changed or taken out"), book.writing() as rows:
            rows.execute(statement)
    with pytest.raises(AskError, match="a revision follows"), book.writing() as rows:
        rows.execute("insert into revisions select 900, paper, revision + 5, text, note, day, author from revisions")


def test_a_book_of_drafts_alone_is_taken_on(tmp_path: Path) -> None:
    path = tmp_path / "book.sqlite"
    with closing(sqlite3.connect(path)) as old, old:
        for statement in DRAFTS:
            old.execute(statement)
        old.execute("insert into steps values (1, 'job.toml', null, 'a')")
        old.execute("insert into drafts values ('job.toml', 'a', 1)")
    with opened(path) as book, book.writing() as rows:
        papers.add(rows, "job", "Heron Point", edit("a"))
        assert rows.execute("pragma user_version").fetchone() == (VERSION,)
        assert rows.execute("select text from drafts join steps on number = at").fetchall() == [("a",)]
    with closing(Book(path)) as drafts, drafts.draft_of(tmp_path / "b.toml") as kept:
        kept.begin("b")


@pytest.mark.message
def test_what_is_no_book_is_refused_and_left_alone(tmp_path: Path) -> None:
    later, other, text = tmp_path / "later.sqlite", tmp_path / "other.sqlite", tmp_path / "text.sqlite"
    with opened(later):
        pass
    with closing(sqlite3.connect(later)) as rows:
        rows.execute("pragma user_version = 99")
    with closing(sqlite3.connect(other)) as rows:
        rows.execute("create table recipes (name text)")
    text.write_text("not a database at all, though long enough to be looked at" * 20)
    said = {later: "is a book of version 99", other: "is another program's file", text: "not a database"}
    for path, words in said.items():
        before = path.read_bytes()
        with pytest.raises(AskError, match=words):
            BookFile(path)
        assert path.read_bytes() == before


def test_many_may_open_a_new_book_at_once(tmp_path: Path) -> None:
    def begin(number: int) -> None:
        with opened(tmp_path / "book.sqlite") as book, book.writing() as rows:
            papers.add(rows, "job", f"job {number}", edit("a"))

    with ThreadPoolExecutor(12) as threads:
        list(threads.map(begin, range(36)))
    with opened(tmp_path / "book.sqlite") as book, book.reading() as rows:
        assert sorted(papers.names(rows, "job")) == sorted(f"job {number}" for number in range(36))


LINES = st.lists(st.sampled_from("abc"), max_size=8).map(lambda lines: "".join(f"{line}\n" for line in lines))


@given(LINES, LINES, LINES)
@pytest.mark.law
def test_the_places_shown_are_all_that_differs(base: str, theirs: str, yours: str) -> None:
    from difflib import SequenceMatcher

    first, *others = (text.splitlines() for text in (base, theirs, yours))
    codes = [list(SequenceMatcher(None, first, other, autojunk=False).get_opcodes()) for other in others]
    regions = list(_regions(codes))
    for other, each in zip(others, codes, strict=True):
        made, at = [], 0
        for low, high in regions:
            made += first[at:low] + other[_start(low, each) : _end(high, each)]
            at = high
        assert made + first[at:] == other
    assert beside(base, theirs, yours)


def test_a_text_says_whether_it_is_whole() -> None:
    assert is_whole(text_of(3))
    assert not is_whole(text_of(3)[:-1])


def test_kills_lose_and_tear_nothing() -> None:
    tally = kills(6, seed=2)
    assert (tally.kills, tally.lost, tally.torn) == (6, 0, 0)
    assert tally.acknowledged > 0


def test_editors_lose_nothing() -> None:
    found = edited(3, 8)
    assert (found.acknowledged, found.revisions, found.lost, found.twice, found.astray) == (24, 25, 0, 0, 0)
