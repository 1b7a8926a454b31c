"""Stops of a round as a calendar file.

Source: RFC 5545, sections 3.1 (lines of 75 octets), 3.3.11 (text), 3.6.1 (an event).
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Sequence

from lakewright.book.round import Stop

OCTETS = 75


def calendar(stops: Sequence[Stop], work: str, said: datetime.date) -> str:
    """The stops as events of local time; the same stops make the same text.

    Parameters
    ----------
    work : what the visits are for
    said : the day on which the round was made
    """
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Lakewright//the book//EN"]
    for stop in stops:
        lines += _event(stop, work, said)
    return "".join(f"{part}\r\n" for line in [*lines, "END:VCALENDAR"] for part in _folded(line))


def _event(stop: Stop, work: str, said: datetime.date) -> list[str]:
    day = datetime.datetime(stop.day.year, stop.day.month, stop.day.day)
    begin = day + datetime.timedelta(minutes=round(stop.begin))
    end = begin + datetime.timedelta(minutes=round(stop.call.minutes))
    told = [f"{stop.call.people} to go", *stop.call.notes, *stop.call.truck]
    return [
        "BEGIN:VEVENT",
        f"UID:{work}-{stop.day.year}-{stop.call.number}@book.lakewright",
        f"DTSTAMP:{said:%Y%m%d}T000000Z",
        f"DTSTART:{begin:%Y%m%dT%H%M%S}",
        f"DTEND:{end:%Y%m%dT%H%M%S}",
        f"SUMMARY:{_text(f'{work}: {stop.call.job}')}",
        f"LOCATION:{_text(stop.call.place)}",
        f"DESCRIPTION:{_text(chr(10).join(told))}",
        "END:VEVENT",
    ]


def _text(words: str) -> str:
    for sign in ("\\", ";", ","):
        words = words.replace(sign, f"\\{sign}")
    return words.replace("\r\n", "\n").replace("\r", "\n").replace("\n", "\\n")


def _folded(line: str) -> Iterator[str]:
    """A line in pieces of no more than 75 octets, none of which cuts a letter."""
    piece, lead = "", ""
    for letter in line:
        if len(f"{lead}{piece}{letter}".encode()) > OCTETS:
            yield f"{lead}{piece}"
            piece, lead = "", " "
        piece += letter
    yield f"{lead}{piece}"
