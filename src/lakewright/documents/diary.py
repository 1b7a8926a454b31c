"""What is to be done through the years as a calendar that other programs read (iCalendar, RFC 5545)."""

from __future__ import annotations

import datetime
import unicodedata
import uuid
from collections.abc import Sequence
from importlib import import_module
from typing import Any

from lakewright import __version__
from lakewright.documents.upkeep import Entry
from lakewright.errors import AskError

NEEDS_ICALENDAR = (
    "a calendar is written by icalendar, which is not installed; install it with: pip install 'lakewright[packet]'"
)
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

    Raises
    ------
    AskError where icalendar is not installed
    """
    try:
        # By its name: it is imported where a calendar is asked for, and types are checked without it.
        library = import_module("icalendar")
    except ImportError:
        raise AskError(NEEDS_ICALENDAR) from None
    made = datetime.datetime(stamp.year, stamp.month, stamp.day, tzinfo=datetime.UTC)
    book = library.Calendar()
    book.add("prodid", f"-//Lakewright//{__version__}//EN")
    book.add("version", "2.0")
    for name in ("name", "x-wr-calname"):  # by the standard, and as most programs have it
        book.add(name, library.vText(words(title)))
    book.add("description", words("\n".join(about)))
    for entry in entries:
        book.add_component(_event(library, entry, title, water, made))
    content: bytes = book.to_ical()
    return content


def _event(library: Any, entry: Entry, title: str, water: str, made: datetime.datetime) -> Any:
    event = library.Event()
    event.add("uid", str(uuid.uuid5(OURS, "\n".join((title, water, entry.key)))))
    event.add("dtstamp", made)
    event.add("dtstart", entry.first)
    event.add("summary", words(f"{title}: {entry.what}"))
    event.add("description", words("\n".join(entry.rows)))
    event.add("transp", "TRANSPARENT")  # a day on which one may still be called
    rule: dict[str, Any] = {"FREQ": "YEARLY"}
    if entry.years > 1:
        rule["INTERVAL"] = entry.years
    if entry.months:
        rule |= {"BYMONTH": list(entry.months), "BYMONTHDAY": entry.first.day}
    event.add("rrule", rule)
    if entry.ahead:
        alarm = library.Alarm()
        alarm.add("action", "DISPLAY")
        alarm.add("trigger", datetime.timedelta(days=-entry.ahead))
        alarm.add("description", words(entry.what))
        event.add_component(alarm)
    return event


def words(text: str) -> str:
    """Words that a calendar can hold: line ends stay, other marks that print nothing do not.

    >>> words("two\\r\\nlines\\x07")
    'two\\nlines'
    """
    one = text.replace("\r\n", "\n").replace("\r", "\n")
    return "".join(letter for letter in one if letter in "\n\t" or unicodedata.category(letter) not in ("Cc", "Cs"))
