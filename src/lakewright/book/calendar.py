"""Stops of a round as a calendar file."""

from __future__ import annotations

import datetime
from collections.abc import Sequence

from lakewright.book.round import Stop
from lakewright.ics import calendar_text, text


def calendar(stops: Sequence[Stop], work: str, said: datetime.date) -> str:
    """The stops as events of local time; the same stops make the same text.

    Parameters
    ----------
    work : what the visits are for
    said : the day on which the round was made
    """
    return calendar_text("the book", (line for stop in stops for line in _event(stop, work, said)))


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
        f"SUMMARY:{text(f'{work}: {stop.call.job}')}",
        f"LOCATION:{text(stop.call.place)}",
        f"DESCRIPTION:{text(chr(10).join(told))}",
        "END:VEVENT",
    ]
