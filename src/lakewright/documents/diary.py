"""What is to be done through the years as a calendar that other programs read."""

from __future__ import annotations

import datetime
import uuid
from collections.abc import Iterator, Sequence

from lakewright import __version__
from lakewright.documents.upkeep import Entry
from lakewright.ics import calendar_text, text

OURS = uuid.uuid5(uuid.NAMESPACE_URL, "urn:lakewright:upkeep")
"""ours: under which every entry has its number."""


def ics(entries: Sequence[Entry], title: str, water: str, stamp: datetime.date, about: Sequence[str]) -> bytes:
    """A calendar of entries, each a day long; the same entries give the same bytes.

    Parameters
    ----------
    entries : what is to be done
    title, water : of the job and its water, by which an entry is known again
    stamp : the day the job was written
    about : what is to be said of the calendar
    """
    # By the standard, and as most programs have it.
    head = [f"NAME:{text(title)}", f"X-WR-CALNAME:{text(title)}", f"DESCRIPTION:{text(_rows(about))}"]
    events = (line for entry in entries for line in _event(entry, title, water, stamp))
    return calendar_text(__version__, [*head, *events]).encode("utf-8")


def _event(entry: Entry, title: str, water: str, stamp: datetime.date) -> Iterator[str]:
    rule = ["FREQ=YEARLY"]
    if entry.years > 1:
        rule.append(f"INTERVAL={entry.years}")
    if entry.months:
        rule += [f"BYMONTH={','.join(map(str, entry.months))}", f"BYMONTHDAY={entry.first.day}"]
    number = uuid.uuid5(OURS, _rows((title, water, entry.key)))
    yield from ("BEGIN:VEVENT", f"UID:{number}", f"DTSTAMP:{_day(stamp)}T000000Z")
    yield from (f"DTSTART;VALUE=DATE:{_day(entry.first)}", f"RRULE:{';'.join(rule)}")
    yield f"SUMMARY:{text(f'{title}: {entry.what}')}"
    yield f"DESCRIPTION:{text(_rows(entry.rows))}"
    yield "TRANSP:TRANSPARENT"  # a day on which one may still be called
    if entry.ahead:
        yield from ("BEGIN:VALARM", "ACTION:DISPLAY", f"DESCRIPTION:{text(entry.what)}")
        yield from (f"TRIGGER:-P{entry.ahead}D", "END:VALARM")
    yield "END:VEVENT"


def _rows(rows: Sequence[str]) -> str:
    return "\n".join(rows)


def _day(day: datetime.date) -> str:
    # A year of before 1000 has four figures too.
    return f"{day.year:04d}{day.month:02d}{day.day:02d}"
