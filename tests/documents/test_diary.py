"""The calendar read back by another library: days, repeats and words are what was meant, whatever the job is called."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from typing import Any

import pytest
import vobject

from lakewright.api.diary_sheets import diary_files
from lakewright.api.report import report_on
from lakewright.documents.diary import ics
from lakewright.documents.upkeep import Entry, entries, rounds, year_of
from lakewright.errors import AskError
from lakewright.job.read import read_job_text
from lakewright.job.write import set_values
from lakewright.report import Report
from lakewright.sources import load_sources
from lakewright.state.assemble import Assembly, facts_of
from lakewright.stock.load import load_stock
from tests.documents.test_lists import ODD
from tests.job.example import EXAMPLE
from tests.test_report import NEVER_SAID

pytestmark = pytest.mark.law

FOLDER = EXAMPLE.parent
NAMES = ("year_round_cabin", "stream_irrigation", "stock_tank")
STAMP = datetime.date(2026, 5, 9)


def read(name: str, changes: Mapping[str, str] = {}) -> tuple[Any, Assembly, Report]:
    text = set_values((FOLDER / f"{name}.toml").read_text(encoding="utf-8"), changes)
    job = read_job_text(text)
    assembly = facts_of(job, load_stock())
    return job, assembly, report_on(job, assembly)


def written(name: str, changes: Mapping[str, str] = {}) -> bytes:
    job, assembly, report = read(name, changes)
    return diary_files(job, load_stock(), assembly, report)["calendar.ics"]


def events(content: bytes) -> list[Any]:
    return list(vobject.readOne(content.decode("utf-8")).vevent_list)


def days(event: Any, until: int) -> list[datetime.date]:
    end = datetime.datetime(until, 12, 31)
    return [each.date() for each in event.getrruleset(addRDate=True).between(datetime.datetime(2000, 1, 1), end)]


@pytest.mark.parametrize("name", NAMES)
def test_what_another_library_reads_is_what_was_meant(name: str) -> None:
    job, assembly, report = read(name)
    meant = entries(job, assembly.facts, report, job.job.date)
    found = events(written(name))
    assert [event.summary.value for event in found] == [f"{report.title}: {entry.what}" for entry in meant]
    assert [event.dtstart.value for event in found] == [entry.first for entry in meant]
    assert [event.description.value for event in found] == ["\n".join(entry.rows) for entry in meant]
    for event, entry in zip(found, meant, strict=True):
        first, second, *_ = days(event, entry.first.year + 6)
        assert first == entry.first
        assert second > first
        assert (second.year - first.year == entry.years) or second.month in entry.months
        assert all(each.month in (entry.months or (entry.first.month,)) for each in days(event, entry.first.year + 6))


@pytest.mark.parametrize("name", NAMES)
def test_every_line_is_folded_and_ended_as_the_standard_asks(name: str) -> None:
    # RFC 5545, 3.1: lines end in CR LF and have no more than 75 octets without it.
    lines = written(name).split(b"\r\n")
    assert all(len(line) <= 75 and b"\n" not in line for line in lines)
    assert any(line.startswith(b" ") for line in lines)
    for line in lines:
        line.decode("utf-8")  # no letter is cut in two


@pytest.mark.parametrize("odd", [*ODD, "a\nb", "a;b,c\\d\\n", "END:VCALENDAR", "\nEND:VEVENT\nBEGIN:VEVENT"])
def test_any_words_are_read_back_as_typed(odd: str) -> None:
    entry = Entry("gauges", odd, STAMP, (), 1, (odd, odd * 30))
    (event,) = events(ics([entry], odd, odd, STAMP, (odd,)))
    assert event.summary.value == f"{odd}: {odd}"
    assert event.description.value == f"{odd}\n{odd * 30}"


def test_an_entry_keeps_its_number_when_the_job_changes_and_no_other_job_has_it() -> None:
    numbers = {event.summary.value: event.uid.value for event in events(written("stream_irrigation"))}
    later = events(written("stream_irrigation", {"need.close_by": "2026-09-20", "job.date": "2027-01-01"}))
    assert {event.summary.value: event.uid.value for event in later} == numbers
    assert len(set(numbers.values())) == len(numbers)
    other = events(written("stream_irrigation", {"job.title": "another"}))
    assert not {event.uid.value for event in other} & set(numbers.values())


def test_the_stamp_is_the_day_of_the_job() -> None:
    stamps = {event.dtstamp.value for event in events(written("year_round_cabin"))}
    assert stamps == {datetime.datetime(2026, 5, 9, tzinfo=vobject.icalendar.utc)}


def test_it_is_closed_and_started_on_the_days_of_the_season_sheet() -> None:
    job, assembly, report = read("stream_irrigation", {"need.close_by": "", "need.open_from": ""})
    meant = {entry.key: entry for entry in entries(job, assembly.facts, report, job.job.date)}
    said = " ".join(report.season[0].rows)
    for key in ("close", "start"):
        day = meant[key].first
        assert f"{day.day} {day:%B}" in said
        assert meant[key].ahead == 14
    alarms = [event for event in events(written("stream_irrigation")) if hasattr(event, "valarm")]
    assert [event.valarm.trigger.value for event in alarms] == [datetime.timedelta(days=-14)] * 2


@pytest.mark.parametrize("season", ["hauled", "drained"])
def test_nothing_is_to_be_read_or_changed_while_it_is_empty(season: str) -> None:
    changes = {"need.season": season, "need.close_by": "2026-10-04", "need.open_from": "2026-05-20"}
    job, assembly, report = read("year_round_cabin", changes)
    for entry in entries(job, assembly.facts, report, job.job.date):
        for month in entry.months or (entry.first.month,):
            assert (5, 20) <= (month, entry.first.day) <= (10, 4)


def test_a_supply_that_nobody_has_dated_rests_in_the_months_of_winter() -> None:
    gone = ("need.close_by", "need.open_from", "site.frost.first", "site.frost.last", "site.frost.spread")
    job, assembly, _ = read("stream_irrigation", dict.fromkeys(gone, ""))
    year = year_of(job, assembly.facts)
    assert (year.start, year.close) == (None, None)
    assert year.months == (4, 5, 6, 7, 8, 9, 10, 11)


def test_a_supply_that_is_used_over_the_new_year_is_looked_after_there() -> None:
    job, assembly, _ = read("stream_irrigation", {"need.close_by": "2026-03-10", "need.open_from": "2026-11-01"})
    assert year_of(job, assembly.facts).months == (11, 12, 1, 2, 3)


def test_the_dam_is_named_in_the_months_it_holds_the_water_lowest() -> None:
    rows = "".join(
        f'\n[[site.levels.schedule]]\nmonths = {months}\nlevel = "{level}"\n'
        for months, level in ((["June", "July"], "0 ft"), (["August", "November"], "-3 ft"), (["February"], "-1 ft"))
    )
    text = (FOLDER / "year_round_cabin.toml").read_text(encoding="utf-8")
    job = read_job_text(text.replace("\n[site.bed]", f"{rows}\n[site.bed]"))
    assembly = facts_of(job, load_stock())
    meant = {entry.key: entry for entry in entries(job, assembly.facts, report_on(job, assembly), STAMP)}
    assert (meant["dam"].months, meant["dam"].first) == ((8, 11), datetime.date(2026, 8, 1))
    assert "-3.0 ft" in meant["dam"].rows[0]
    assert "drawn down" not in " ".join(event.summary.value for event in events(written("year_round_cabin")))


@pytest.mark.parametrize(
    "date, first", [("2028-02-29", "2029-02-28"), ("9999-12-31", "9999-12-28"), ("2026-12-31", "2027-12-31")]
)
def test_odd_days_have_their_anniversary(date: str, first: str) -> None:
    job, assembly, report = read("year_round_cabin", {"job.date": date})
    meant = {entry.key: entry for entry in entries(job, assembly.facts, report, job.job.date)}
    assert meant["round"].first.year == int(first[:4])
    assert len(events(written("year_round_cabin", {"job.date": date}))) == len(meant)


def test_who_does_not_drink_has_no_lamp_and_no_tests() -> None:
    drunk, not_drunk = (
        {entry.key for entry in entries(job, assembly.facts, report, STAMP)}
        for job, assembly, report in (read("year_round_cabin"), read("stream_irrigation"))
    )
    assert drunk - not_drunk == {"filters", "sleeve", "bulb", "tests"}
    assert not_drunk - drunk == {"close", "start"}


def test_every_round_says_where_it_comes_from() -> None:
    for row in rounds().values():
        assert row["source"] in load_sources()
        assert row["why"]
        assert row["words"]
        assert not NEVER_SAID.search(" ".join([row["what"], *row["words"]]))


@pytest.mark.message
def test_without_a_day_there_is_no_calendar() -> None:
    with pytest.raises(AskError, match=r"^no calendar: its days count from \[job\] date, which is not given"):
        written("year_round_cabin", {"job.date": ""})
    job, assembly, report = read("no_suction_pump")
    with pytest.raises(AskError, match="no calendar: no suction pump will do here"):
        diary_files(job, load_stock(), assembly, report)


def test_the_calendar_carries_the_cautions() -> None:
    _, _, report = read("year_round_cabin")
    book = vobject.readOne(written("year_round_cabin").decode("utf-8"))
    for caution in report.cautions:
        assert caution in book.description.value
