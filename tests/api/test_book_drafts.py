"""The page's draft and the book: on which revision a draft is, two edits put in one, and packs that lead astray."""

from __future__ import annotations

import io
import stat
import zipfile
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from lakewright.api.book import Signed, add, revision_text, save, shown
from lakewright.api.book_copies import MOST_UNPACKED, copied, import_packed, plain_files
from lakewright.api.book_drafts import facing, keep_draft, open_revision, origin_of, put_in_one
from lakewright.api.drafts import Book, draft, edit, step
from lakewright.book.differs import values_of
from lakewright.book.file import BookFile
from lakewright.errors import AskError, StaleError
from lakewright.job.write import set_values
from tests.book.made import fill, opened

CABIN = Path(__file__).resolve().parents[2] / "examples" / "year_round_cabin.toml"
TEXT = CABIN.read_text(encoding="utf-8")
ANN, BEN = Signed("Ann", "2026-05-03"), Signed("Ben", "2026-05-04")
DAY = "2026-05-05"


@pytest.fixture
def drafts(tmp_path: Path) -> Iterator[Book]:
    with closing(Book(tmp_path / "book.sqlite")) as made:
        yield made


@pytest.fixture
def book(drafts: Book) -> BookFile:
    add(drafts.file, CABIN, "job", "Heron", ANN)
    return drafts.file


def opened_as(drafts: Book, book: BookFile, folder: Path, revision: int = 1) -> Path:
    return open_revision(drafts, folder, revision_text(book, "job", "Heron", revision))[0]


def test_a_draft_is_on_the_revision_it_was_opened_as_until_it_is_kept(
    drafts: Book, book: BookFile, tmp_path: Path
) -> None:
    file = opened_as(drafts, book, tmp_path)
    assert origin_of(drafts, file) == ("Heron", 1)
    edit(drafts, file, {"stand.riser": "20 in"}, {}, DAY, False)
    assert origin_of(drafts, file) == ("Heron", 1)
    kept = keep_draft(book, drafts, file, "Heron", 1, BEN, "why")
    assert (kept.revision, kept.text, kept.author) == (2, draft(drafts, file).text, "Ben")
    assert origin_of(drafts, file) == ("Heron", 2)
    step(drafts, file, "undo")
    # Behind what was kept one is on the one before, and is refused as anybody would be.
    assert origin_of(drafts, file) == ("Heron", 1)
    edit(drafts, file, {"stand.riser": "30 in"}, {}, DAY, False)
    with pytest.raises(StaleError):
        keep_draft(book, drafts, file, "Heron", 1, BEN)
    assert not file.exists()


def test_a_draft_of_nothing_in_the_book_is_a_new_job(drafts: Book, book: BookFile, tmp_path: Path) -> None:
    file = tmp_path / "other.toml"
    file.write_text(set_values(TEXT, {"job.title": "Other"}), encoding="utf-8")
    assert origin_of(drafts, file) is None
    assert keep_draft(book, drafts, file, "Other", 0, ANN).revision == 1
    assert origin_of(drafts, file) == ("Other", 1)
    with pytest.raises(AskError, match="is in the book already"):
        keep_draft(book, drafts, file, "heron", 0, ANN)


def test_what_differs_is_told_value_by_value_and_put_in_one(drafts: Book, book: BookFile, tmp_path: Path) -> None:
    file = opened_as(drafts, book, tmp_path)
    theirs = set_values(TEXT, {"stand.riser": "20 in", "stand.at": "165 ft", "job.customer": "Family A"})
    edit(drafts, file, {"stand.riser": "22 in", "pump.height": "8 ft", "site.days.2": ""}, {}, DAY, False)
    yours = draft(drafts, file).text
    (tmp_path / "theirs.toml").write_text(theirs, encoding="utf-8")
    save(book, tmp_path / "theirs.toml", "job", "Heron", 1, ANN)
    found = facing(book, drafts, file, "Heron", 1)
    assert (found.base.revision, found.theirs.revision, found.yours) == (1, 2, yours)
    assert found.values is not None
    both = [each.path for each in found.values if each.by_them and each.by_you]
    assert [path for path in both if path.startswith("stand.riser")]
    assert not [path for path in both if path.startswith(("pump", "site"))]
    assert "Line" in found.lines
    mine = {each.path for each in found.values if each.by_you}
    left = put_in_one(book, drafts, file, "Heron", 2, mine)
    merged, wanted = values_of(draft(drafts, file).text), values_of(yours)
    assert left == []
    for path in mine:
        assert merged.get(path, "") == wanted.get(path, "")
    assert merged["job.customer"] == "Family A"
    assert len([path for path in merged if path.startswith("site.days")]) == len(
        [path for path in wanted if path.startswith("site.days")]
    )
    assert origin_of(drafts, file) == ("Heron", 2)
    assert keep_draft(book, drafts, file, "Heron", 2, BEN).revision == 3
    step(drafts, file, "undo")
    assert draft(drafts, file).text == theirs
    step(drafts, file, "undo")
    assert draft(drafts, file).text == yours


def test_nothing_is_put_in_what_is_not_the_last_any_more(drafts: Book, book: BookFile, tmp_path: Path) -> None:
    file = opened_as(drafts, book, tmp_path)
    before = draft(drafts, file)
    with pytest.raises(StaleError, match="once more"):
        put_in_one(book, drafts, file, "Heron", 2, ())
    assert draft(drafts, file) == before


def test_files_that_a_revision_names_come_beside_its_draft_and_over_nothing(drafts: Book, tmp_path: Path) -> None:
    home, away = tmp_path / "home", tmp_path / "away"
    for folder in (home, away):
        folder.mkdir()
    text = set_values(TEXT, {"site.soundings": "", "site.soundings_file": "bed.csv"})
    (home / "cabin.toml").write_text(text, encoding="utf-8")
    (home / "bed.csv").write_text("distance ft,depth ft\n0,0\n40,7\n400,30\n", encoding="utf-8")
    add(drafts.file, home / "cabin.toml", "job", "Heron", ANN)
    kept = revision_text(drafts.file, "job", "Heron")
    _, put = open_revision(drafts, away, kept)
    assert put == ["bed.csv"]
    assert (away / "bed.csv").read_bytes() == (home / "bed.csv").read_bytes()
    (away / "bed.csv").write_text("mine", encoding="utf-8")
    file, put = open_revision(drafts, away, kept)
    assert (put, (away / "bed.csv").read_text(encoding="utf-8")) == ([], "mine")
    assert file.name == "heron-2.toml"


# Packs.


def packed(files: dict[str, bytes], how: int = zipfile.ZIP_DEFLATED) -> bytes:
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", how) as out:
        for name, content in files.items():
            out.writestr(name, content)
    return made.getvalue()


@pytest.fixture
def files(tmp_path: Path) -> dict[str, bytes]:
    with opened(tmp_path / "full.sqlite") as full:
        fill(full)
        return plain_files(full)


def test_a_pack_comes_in_to_the_letter_folded_or_not(files: dict[str, bytes], tmp_path: Path) -> None:
    for number, pack in enumerate((packed(files), packed({f"book/{name}": raw for name, raw in files.items()}))):
        with opened(tmp_path / f"new{number}.sqlite") as new:
            assert import_packed(new, pack) > 10
            assert plain_files(new) == files
            with pytest.raises(AskError, match="has papers already"):
                import_packed(new, pack)
            assert copied(new).startswith(b"SQLite format 3")


ASTRAY = ("../evil.toml", "/tmp/evil.toml", "jobs/../../evil.toml", "C:evil.toml", "a\nb.toml", "x" * 301)


@pytest.mark.parametrize("name", ASTRAY, ids=ascii)
def test_a_pack_that_leads_astray_is_refused_whole(files: dict[str, bytes], name: str, tmp_path: Path) -> None:
    with opened(tmp_path / "new.sqlite") as new:
        with pytest.raises(AskError, match="wanted one inside it"):
            import_packed(new, packed({**files, name: b"x"}))
        assert shown_papers(new) == 0
    assert not list(tmp_path.rglob("evil*"))


def shown_papers(book: BookFile) -> int:
    with book.reading() as rows:
        return int(rows.execute("select count(*) from papers").fetchone()[0])


def test_a_link_and_a_locked_file_and_too_much_in_a_pack_are_refused(tmp_path: Path) -> None:
    link = zipfile.ZipInfo("papers.csv")
    link.external_attr = (stat.S_IFLNK | 0o777) << 16
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w") as out:
        out.writestr(link, "/etc/passwd")
    locked = bytearray(packed({"book.toml": b"x"}))
    locked[6] |= 1
    locked[locked.index(b"PK\x01\x02") + 8] |= 1
    much = packed({"a": bytes(MOST_UNPACKED // 2), "b": bytes(MOST_UNPACKED // 2 + 1)})
    assert len(much) < 1_000_000
    wanted = {"is a link": made.getvalue(), "is locked": bytes(locked), "unpacks to more than": much}
    with opened(tmp_path / "new.sqlite") as new:
        for words, pack in wanted.items():
            with pytest.raises(AskError, match=words):
                import_packed(new, pack)
        assert shown_papers(new) == 0


def test_a_pack_that_was_bitten_is_refused_or_taken_whole(files: dict[str, bytes], tmp_path: Path) -> None:
    import random

    dice, sound = random.Random(16), packed(files)
    refused = 0
    for number in range(60):
        bad = bytearray(sound)
        for _ in range(dice.randint(1, 8)):
            bad[dice.randrange(len(bad))] = dice.randrange(256)
        with opened(tmp_path / f"new{number}.sqlite") as new:
            try:
                import_packed(new, bytes(bad[: dice.choice((len(bad), dice.randrange(len(bad))))]))
            except AskError as error:
                refused += 1
                said = str(error)
            else:
                continue
            assert "lakewright-" not in said
            assert shown_papers(new) == 0
    assert refused > 20


def test_the_copy_is_a_book(tmp_path: Path) -> None:
    with opened(tmp_path / "full.sqlite") as full:
        fill(full)
        (tmp_path / "copy.sqlite").write_bytes(copied(full))
    with opened(tmp_path / "copy.sqlite") as again:
        assert shown(again, "job", "Heron Point").card.stage == "looked at"
