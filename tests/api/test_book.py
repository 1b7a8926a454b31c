"""The door of the book: jobs and what lies beside them, findings that move, prices that change, rounds, invoices."""

from __future__ import annotations

import datetime
import shutil
import threading
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from lakewright.api.book import (
    BookFile,
    Found,
    Signed,
    Standing,
    Visit,
    Way,
    add,
    listed,
    put_down,
    revision_text,
    save,
    search,
    shown,
    write_revision,
)
from lakewright.api.book_checks import between, order_all, report_of, requote
from lakewright.api.book_copies import export_to, import_from
from lakewright.api.book_readings import tuned_of, write_record
from lakewright.api.book_round import done, invoiced, ready, round_of
from lakewright.api.check import check
from lakewright.book import papers
from lakewright.errors import AskError
from lakewright.state.unknowns import read_record
from tests.book.made import edit, opened
from tests.job.example import EXAMPLE, example_text

ANN = Signed("Ann", "2026-05-03")
NAME = "Heron Point cabin"


@pytest.fixture
def book(tmp_path: Path) -> Iterator[BookFile]:
    with opened(tmp_path / "book.sqlite") as found:
        yield found


def edited(tmp_path: Path, *edits: tuple[str, str]) -> Path:
    """The example with some of its words replaced, as a file."""
    text = example_text()
    for old, new in edits:
        assert old in text
        text = text.replace(old, new)
    path = tmp_path / "job.toml"
    path.write_text(text, encoding="utf-8")
    return path


HAULED = ('season   = "year-round"', 'season   = "hauled"\nclose_by = 2020-10-10')


def test_a_job_brings_its_water_and_its_customer(book: BookFile, tmp_path: Path) -> None:
    shutil.copytree(EXAMPLE.parent / "waters", tmp_path / "waters")
    file = edited(tmp_path, ('units = "US"', 'units = "US"\ncustomer = "=1+1 \\"Quill\\", B."'))
    kept = add(book, file, "job", "", ANN)
    assert (kept.name, kept.revision, kept.text) == (NAME, 1, file.read_text(encoding="utf-8"))
    assert [card.last.name for card in listed(book, "water")] == ["Long Arm Lake"]
    assert [card.last.name for card in listed(book, "customer")] == ['=1+1 "Quill", B.']
    card = listed(book)[0]
    assert (card.stage, card.since, card.water, card.is_open) == ("asked", "2026-05-03", "Long Arm Lake", True)


def test_a_job_in_the_book_is_judged_as_its_file_is(book: BookFile) -> None:
    report = report_of(book, add(book, EXAMPLE, "job", "", ANN))
    assert report == check(EXAMPLE)


def test_files_that_a_job_names_are_kept_and_judged_as_they_were_then(book: BookFile, tmp_path: Path) -> None:
    soundings = tmp_path / "soundings.csv"
    rows = "distance ft,depth ft\n0,0\n40,6\n80,11\n120,17\n170,{}\n240,31\n"
    soundings.write_text(rows.format(24))
    text = example_text()
    start, end = text.index("[[site.soundings]]"), text.index("# Up from the water's edge, with the height")
    text = (text[:start] + text[end:]).replace("[site]\n", '[site]\nsoundings_file = "soundings.csv"\n')
    file = tmp_path / "job.toml"
    file.write_text(text)
    add(book, file, "job", "", ANN)
    soundings.write_text(rows.format(20))
    file.write_text(text.replace("legs  = 4", "legs  = 3"))
    save(book, file, "job", NAME, 1, ANN)
    depths = []
    for number in (1, 2):
        findings = {f.name: f for f in report_of(book, revision_text(book, "job", NAME, number)).findings}
        depths.append(findings["water_covers_the_inlet"].value)
    assert depths[0] is not None
    assert depths[1] is not None
    assert depths[0] - depths[1] == pytest.approx(4.0 * 0.3048)


def test_what_changed_between_two_revisions_and_which_findings_moved(book: BookFile, tmp_path: Path) -> None:
    add(book, EXAMPLE, "job", "", ANN)
    save(book, edited(tmp_path, ('riser = "24 in"', 'riser = "10 in" # lower')), "job", NAME, 1, ANN)
    found = between(book, NAME, 1, 2)
    assert found.values is not None
    assert [(change.path, change.before, change.after) for change in found.values] == [
        ("stand.riser", "24 in", "10 in")
    ]
    first = found.moved[0]
    assert (first.name, first.before, first.after) == ("inlet_stands_clear_of_the_bed", "holds", "fails")
    assert all(each.before == each.after for each in found.moved[1:])
    assert found.alike + len(found.moved) == len(check(EXAMPLE).findings)
    assert found.price_before is not None
    assert found.price_after is not None
    assert found.price_after < found.price_before


def test_what_cannot_be_judged_is_kept_and_said(book: BookFile, tmp_path: Path) -> None:
    add(book, EXAMPLE, "job", "", ANN)
    save(book, edited(tmp_path, ('riser = "24 in"', 'riser = "24"')), "job", NAME, 1, ANN)
    found = between(book, NAME, 1, 2)
    assert found.moved == ()
    assert found.untold.startswith(f"1 mistake in {NAME}\n{NAME}, revision 2, line ")
    assert str(tmp_path) not in found.untold
    rows = requote(book, None, ANN)
    assert rows[0].now is None
    assert "revision 2" in rows[0].untold


def test_open_jobs_are_priced_anew_and_the_pick_that_changes_is_shown(book: BookFile, tmp_path: Path) -> None:
    add(book, edited(tmp_path, ('tank     = "diaphragm tank, 62 gal"', 'tank     = "open"')), "job", "open", ANN)
    add(book, EXAMPLE, "job", "closed", ANN)
    add(book, EXAMPLE, "job", "taken", ANN)
    put_down(book, Standing(job="taken", stage="said yes", day="2026-05-03", author="Ann"))
    first = requote(book, None, ANN)
    assert [(each.card.last.name, each.before, each.picks) for each in first] == [
        ("open", None, ()),
        ("closed", None, ()),
    ]
    priced = check(EXAMPLE).priced
    assert priced is not None
    assert first[1].now is not None
    assert first[1].now.total == priced.quote.total
    sheet = tmp_path / "own.csv"
    sheet.write_text('name,counter_cents\n"diaphragm tank, 32 gal",999900\n"diaphragm tank, 62 gal",999900\n')
    second = requote(book, sheet, Signed("Bea", "2026-06-01"), keep=False)
    assert [change.path for change in second[0].picks] == ["delivery.tank"]
    assert second[0].picks[0].before == "diaphragm tank, 32 gal"
    assert second[0].before == first[0].now
    assert second[1].now is not None
    assert second[1].now.total > first[1].now.total
    assert len(shown(book, "job", "open").quotes) == 1
    with pytest.raises(AskError, match="no such file"):
        requote(book, tmp_path / "none.csv", ANN)


def test_readings_tune_what_doubt_takes(book: BookFile, tmp_path: Path) -> None:
    add(book, EXAMPLE, "job", "", ANN)
    off = (1.0, 0.9, 1.1, 0.95, 1.05)
    for share in off:
        found = f"{20.0 * share:.2f} ft"
        put_down(book, Found(job=NAME, what="depth at the stand", said="20 ft", found=found, **vars(ANN)))
    put_down(book, Found(job=NAME, what="water level", said="-2.5 ft", found="-3 ft", **vars(ANN)))
    tuned = {each.name: each for each in tuned_of(book)}
    assert (tuned["depth at the stand"].pairs, tuned["water level"].bias) == (5, None)
    # The sample's own standard deviation of 0, -10, 10, -5 and 5 %.
    assert tuned["depth at the stand"].spread == pytest.approx((0.025 / 4.0) ** 0.5)
    assert write_record(book, tmp_path / "record.csv") == 6
    bias, spread = read_record(tmp_path / "record.csv")["depth at the stand"]
    assert (bias, spread) == (tuned["depth at the stand"].bias, tuned["depth at the stand"].spread)
    with pytest.raises(AskError, match="wanted one of: height of the pump"):
        put_down(book, Found(job=NAME, what="depth", said="1 ft", found="1 ft", **vars(ANN)))
    with pytest.raises(AskError, match="found 0 said"):
        put_down(book, Found(job=NAME, what="depth at the stand", said="0 ft", found="1 ft", **vars(ANN)))


def test_a_bill_is_ordered_once(book: BookFile) -> None:
    add(book, EXAMPLE, "job", "", ANN)
    priced = check(EXAMPLE).priced
    assert priced is not None
    orders = order_all(book, NAME, "the shop", ANN)
    assert {order.part for order in orders} == {line.what for line in priced.bill.lines if not line.have}
    assert order_all(book, NAME, "the shop", ANN) == []
    assert len(shown(book, "job", NAME).orders) == len(orders)


def test_a_round_a_visit_and_its_invoice(book: BookFile, tmp_path: Path) -> None:
    add(book, edited(tmp_path, HAULED), "job", "hauled", ANN)
    add(
        book, edited(tmp_path, (HAULED[0], 'season   = "drained"\nwinter_by = "the owner"')), "job", "by the owner", ANN
    )
    for name in ("hauled", "by the owner"):
        put_down(book, Standing(job=name, stage="put in", day="2026-06-01", author="Ann"))
    put_down(book, Way(start="shop", finish="Long Arm Lake", minutes=40.0, **vars(ANN)))
    found = round_of(book, "haul-out", datetime.date(2026, 10, 10))
    assert found.left_out == (("by the owner", "wintered by the owner"),)
    (stop,) = found.stops
    # The tenth is a Saturday.
    assert (stop.call.job, stop.day, stop.drive, stop.timed) == ("hauled", datetime.date(2026, 10, 12), 40.0, True)
    assert stop.trouble == "late: by 2026-10-10"
    assert (found.road, stop.call.people, dict(found.truck)["mouse mesh"]) == (80.0, 2, 1)
    assert round_of(book, "start-up", datetime.date(2026, 10, 10)).stops == ()
    done(book, Visit(job="hauled", work="haul-out", minutes=100.0, people=2, parts="a union ring", **vars(ANN)))
    assert shown(book, "job", "hauled").card.stage == "wintered"
    (bill,) = ready(book)
    # Two people, two hours begun by halves, at $85.
    assert (bill.hours, bill.amount) == (2.0, 34_000)
    assert invoiced(book, "hauled", ANN) == 1
    assert ready(book) == []
    with pytest.raises(AskError, match="nothing of hauled is ready to invoice"):
        invoiced(book, "hauled", ANN)
    spring = round_of(book, "start-up", datetime.date(2027, 5, 3))
    assert [stop.call.job for stop in spring.stops] == ["hauled"]
    assert "household bleach, plain and new" in dict(spring.truck)
    assert spring.stops[0].call.minutes > stop.call.minutes


def test_an_import_waits_its_turn_and_then_sees_what_another_put_there(tmp_path: Path) -> None:
    path, out, began = tmp_path / "book.sqlite", tmp_path / "plain", threading.Event()
    with opened(tmp_path / "full.sqlite") as full:
        add(full, EXAMPLE, "job", "", ANN)
        export_to(full, out)

    def another_writes() -> None:
        with opened(path) as other, other.writing() as rows:
            papers.add(rows, "job", "Heron Point", edit("a"))
            began.set()
            time.sleep(0.3)

    with opened(path) as book, ThreadPoolExecutor(1) as pool:
        writes = pool.submit(another_writes)
        began.wait()
        with pytest.raises(AskError, match="the book has papers already"):
            import_from(book, out)
        writes.result()


@pytest.mark.parametrize("work", ["haul-out", "start-up"])
def test_one_goes_where_nothing_comes_out_of_the_water(book: BookFile, tmp_path: Path, work: str) -> None:
    add(book, edited(tmp_path, (HAULED[0], 'season   = "drained"')), "job", "drained", ANN)
    stage = "put in" if work == "haul-out" else "wintered"
    put_down(book, Standing(job="drained", stage=stage, day="2026-06-01", author="Ann"))
    (stop,) = round_of(book, work, datetime.date(2026, 10, 10)).stops
    assert stop.call.people == 1


def test_everything_is_found_by_its_words(book: BookFile) -> None:
    add(book, EXAMPLE, "job", "", ANN)
    put_down(book, Standing(job=NAME, stage="looked at", note="the ÉCLUSE is stuck", day="2026-05-04", author="Ann"))
    hits = search(book, "boathouse wrack")
    assert [(hit.card.kind, "wrack line on the boathouse" in hit.lines[0]) for hit in hits] == [
        ("job", True),
        ("water", True),
    ]
    assert [hit.lines for hit in search(book, "écluse")] == [("looked at  the ÉCLUSE is stuck  2026-05-04  Ann",)]
    assert search(book, "xylophone") == []
    assert search(book, "  ") == []


def test_a_revision_comes_back_as_a_file_byte_by_byte(book: BookFile, tmp_path: Path) -> None:
    raw = b"\xef\xbb\xbf[job]\r\ntitle = 'x'\r\n"
    (tmp_path / "old.toml").write_bytes(raw)
    add(book, tmp_path / "old.toml", "job", "", ANN)
    write_revision(revision_text(book, "job", "x"), tmp_path / "new.toml")
    assert (tmp_path / "new.toml").read_bytes() == raw
    with pytest.raises(AskError, match="is there already"):
        write_revision(revision_text(book, "job", "x"), tmp_path / "new.toml")
