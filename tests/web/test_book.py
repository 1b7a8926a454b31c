"""The book on the page, in a real browser: two people and one job, finding, standing, what changed, packs."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest

from lakewright.api.book import Signed, add, shown
from lakewright.api.book_copies import plain_files
from lakewright.book.file import BookFile
from tests.web.audit import violations
from tests.web.conftest import Server, Watched, copied, unfold

pytestmark = pytest.mark.serial
Opened = Callable[..., Watched]
NAME = "Heron Point cabin"


@pytest.fixture
def shop(tmp_path: Path) -> Server:
    """A server whose book has the cabin and the stock tank, to be started and stopped by `own_server`."""
    server = Server(copied(tmp_path))
    with closing(BookFile(server.file.with_suffix(".sqlite"))) as book:
        add(book, server.file, "job", NAME, Signed("Ann", "2026-05-03"))
        add(book, copied(tmp_path, "stock_tank.toml"), "job", "", Signed("Ann", "2026-05-04"))
    return server


def kept(server: Server) -> BookFile:
    return BookFile(server.file.with_suffix(".sqlite"))


def at_the_book(page: Watched, who: str) -> None:
    """The book unfolded, and who one is."""
    unfold(page, "book")
    page.view.fill("#book-who", who)


def press(page: Watched, choose: str) -> None:
    """Press something in the book, and wait until it has answered."""
    page.view.click(f"#leaf-book {choose}")
    page.view.wait_for_selector("#book-view:not([aria-busy])", timeout=30_000)


def open_draft(page: Watched, name: str = NAME, revision: int = 1) -> None:
    """Open a revision as a draft of its own."""
    press(page, f".jobs button:text-is('{name}')")
    with page.view.expect_navigation(url=lambda url: "job=" in url):
        page.view.click(f"#leaf-book [aria-label='Open revision {revision} as a draft']")
    page.settle()


def type_in(page: Watched, part: str, key: str, value: str) -> None:
    page.view.click(f'#part [data-part="{part}"]')
    page.settle()
    page.set(key, value)
    page.settle()


def test_two_people_and_one_job_the_second_is_shown_beside_and_nothing_is_lost(shop: Server, opened: Opened) -> None:
    shop.start()
    try:
        ann, ben = opened(shop), opened(shop, anew=False)
        for page, who in ((ann, "Ann"), (ben, "Ben")):
            at_the_book(page, who)
            open_draft(page)
            unfold(page, "book")
            assert "revision 1" in page.text("book-draft")
            assert page.view.input_value("#book-who") == who
        # Both change the riser; Ann the place too, and Ben the height of the pump.
        type_in(ann, "inlet", "stand.riser", "20 in")
        type_in(ann, "inlet", "stand.at", "165 ft")
        type_in(ben, "inlet", "stand.riser", "22 in")
        type_in(ben, "pump", "pump.height", "8 ft")
        ann.view.fill("#book-note", "shorter riser")
        press(ann, "#book-draft button:has-text('Keep it')")
        assert f"{NAME}: revision 2, by Ann" in ann.text("book-said")
        bens = ben.draft()
        press(ben, "#book-draft button:has-text('Keep it')")
        said = ben.text("book-view")
        assert "has moved on, and this draft is not kept yet" in said
        assert "revision 2, by Ann" in said
        assert "shorter riser" in said
        both = ben.view.inner_text(".facing tr.both")
        assert "stand.riser" in both
        assert "20 in" in both
        assert "22 in" in both
        assert ben.view.is_checked('[data-whose="pump.height.value"][value=yours]') or ben.view.is_checked(
            '[data-whose="pump.height"][value=yours]'
        )
        assert violations(ben.view) == []
        with closing(kept(shop)) as book:
            assert [each.author for each in shown(book, "job", NAME).revisions] == ["Ann", "Ann"]
        # The keyboard alone: mine for the riser, and the rest as it is offered.
        ben.view.focus('[data-whose^="stand.riser"][value=theirs]')
        ben.view.keyboard.press("ArrowRight")
        assert ben.view.is_checked('[data-whose^="stand.riser"][value=yours]')
        ben.view.focus("#book-view form button")
        ben.view.keyboard.press("Enter")
        ben.view.wait_for_selector("#book-said:has-text('put in')")
        ben.settle()
        assert "revision 2" in ben.text("book-draft")
        for value in ('"22 in"', '"165 ft"', '"8 ft"'):
            assert value in ben.draft()
        press(ben, "#book-draft button:has-text('Keep it')")
        assert "revision 3, by Ben" in ben.text("book-said")
        with closing(kept(shop)) as book:
            third, second, first = shown(book, "job", NAME).revisions
        assert third.text == ben.draft()
        assert '"20 in"' in second.text
        assert first.text == shop.file.read_text(encoding="utf-8")
        # Undo goes back to what Ben's draft was, theirs between.
        for _ in range(2):
            ben.view.click("[data-step=undo]")
            ben.settle()
        assert ben.draft() == bens
    finally:
        shop.stop()


def test_jobs_are_found_and_stand_otherwise_and_what_changed_is_told(shop: Server, opened: Opened) -> None:
    shop.start()
    try:
        page = opened(shop, wide=390, high=844)
        at_the_book(page, "Ann")
        page.view.fill("#book-words", "heron point")
        page.view.press("#book-words", "Enter")
        page.view.wait_for_selector("#book-view .hits")
        assert NAME in page.text("book-view")
        assert "stock" not in page.text("book-view").lower()
        press(page, f".hits button:text-is('{NAME}')")
        assert "It stands asked since 2026-05-03" in page.text("book-view")
        page.view.select_option("#book-mark", "looked at")
        press(page, "button:has-text('Put that down')")
        assert "It stands looked at" in page.text("book-view")
        page.view.select_option("#book-what", "depth at the stand")
        page.view.fill("#book-as-said", "24 ft")
        page.view.fill("#book-as-found", "22.5 ft")
        press(page, "form:has(#book-what) button")
        assert "-6.3 %" in page.text("book-view")
        # What cannot be read is said, and stays as it was typed.
        page.view.fill("#book-as-said", "24 parsecs")
        page.view.fill("#book-as-found", "22.5 ft")
        press(page, "form:has(#book-what) button")
        assert "24 parsecs" in page.text("book-trouble")
        assert page.view.input_value("#book-as-said") == "24 parsecs"
        # The draft that is served is the cabin itself, and so is of revision 1 without being opened.
        assert "revision 1" in page.text("book-draft")
        type_in(page, "inlet", "stand.riser", "40 in")
        press(page, "#book-draft button:has-text('Keep it')")
        press(page, "button:has-text('Show what changed')")
        said = page.text("book-view")
        assert "stand.riser" in said
        assert "40 in" in said
        assert "moved" in said
        assert violations(page.view) == []
        needed, there = page.view.evaluate(
            "[document.documentElement.scrollWidth, document.documentElement.clientWidth]"
        )
        assert needed <= there
        page.view.fill("#book-who", "")
        press(page, "#book-draft button:has-text('Keep it')")
        assert "nobody has said who" in page.text("book-trouble")
        press(page, "[data-see=jobs]")
        page.view.select_option("#book-stage", "looked at")
        press(page, "form[role=search] button")
        assert page.view.locator("#book-view .jobs tbody tr").count() == 1
    finally:
        shop.stop()


def test_prices_anew_the_round_and_readings(shop: Server, opened: Opened) -> None:
    shop.start()
    try:
        page = opened(shop)
        at_the_book(page, "Ann")
        press(page, "[data-see=prices]")
        page.view.click("#book-prices button:not([type])")
        page.view.wait_for_selector("#book-price-progress:has-text('2 of 2 priced')", timeout=60_000)
        assert page.view.locator("#book-priced tbody tr").count() == 2
        assert "the first price put down" in page.text("book-priced")
        page.view.click("#book-prices button:not([type])")
        page.view.wait_for_selector("#book-priced td:text-is('the same') >> nth=1", timeout=60_000)
        assert violations(page.view) == []
        press(page, "[data-see=round]")
        page.view.fill("#book-day", "2026-09-21")
        press(page, "form:has(#book-work) button")
        assert "Nobody is due" in page.text("book-view")
        press(page, "[data-see=readings]")
        assert "Nothing is put down" in page.text("book-view")
        with closing(kept(shop)) as book:
            assert len(shown(book, "job", NAME).quotes) == 2
    finally:
        shop.stop()


def pack(files: dict[str, bytes]) -> bytes:
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as out:
        for name, content in files.items():
            out.writestr(name, content)
    return made.getvalue()


def test_a_pack_goes_out_and_comes_in_and_a_hostile_one_does_not(
    shop: Server, own_server: Server, opened: Opened, tmp_path: Path
) -> None:
    with closing(kept(shop)) as book:
        files = plain_files(book)
    own_server.file.with_suffix(".sqlite").unlink()
    own_server.start()
    page = opened(own_server)
    at_the_book(page, "Ann")
    assert "The book has no job yet" in page.text("book-view")
    press(page, "[data-see=copies]")

    def take(content: bytes, name: str = "book.zip") -> str:
        (tmp_path / name).write_bytes(content)
        page.view.set_input_files("#book-pack", tmp_path / name)
        page.view.wait_for_selector("#book-trouble:not(:empty), #book-said:has-text('taken in')", timeout=30_000)
        page.view.wait_for_selector("#book-view:not([aria-busy])")
        said = page.text("book-trouble") or page.text("book-said")
        page.view.evaluate("document.getElementById('book-trouble').textContent = ''")
        page.view.set_input_files("#book-pack", []) if page.view.locator("#book-pack").count() else None
        return said

    assert "wanted one inside it" in take(pack({**files, "../../evil.toml": b"x"}))
    assert not (tmp_path.parent / "evil.toml").exists()
    assert "no pack that can be read" in take(b"PK\x03\x04 and then nothing")
    bad = files["papers.csv"].replace(NAME.encode(), b"<img src=x onerror=alert(1)>", 1)
    bad = bad.replace(b"job", b"<script>alert(1)</script>", 1)
    assert "<script>alert(1)</script>" in take(pack({**files, "papers.csv": bad}))
    assert page.view.locator("#leaf-book script, #leaf-book img").count() == 0
    with closing(kept(own_server)) as book, book.reading() as rows:
        assert rows.execute("select count(*) from papers").fetchone() == (0,)
    # A name that is markup comes in, for it is a name; on the page it is letters.
    names = files["papers.csv"].replace(NAME.encode(), b"<b>Heron</b> =1+1")
    old = next(path for path in files if path.startswith("jobs/") and "heron" in path)
    folder = next(path for path in files if path == old).split("/")[1]
    renamed = {path.replace(folder, f"{folder.split('-')[0]}-b-heron-b-1-1"): raw for path, raw in files.items()}
    said = take(pack({**renamed, "papers.csv": names}))
    assert "papers are taken in" in said, said
    assert "<b>Heron</b> =1+1" in page.text("book-view")
    assert page.view.locator("#leaf-book table b").count() == 0
    press(page, "[data-see=copies]")
    with page.view.expect_download() as taken:
        page.view.click("#leaf-book a[href='/book/book.zip']")
    with zipfile.ZipFile(taken.value.path()) as again:
        assert {name: again.read(name) for name in again.namelist()} == {**renamed, "papers.csv": names}
    assert "nothing is taken in" in page.text("book-view")
    with page.view.expect_download() as taken:
        page.view.click("#leaf-book a[href='/book/book.sqlite']")
    with closing(BookFile(Path(taken.value.path()))) as book:
        assert shown(book, "job", "<b>Heron</b> =1+1").card.last.revision == 1
