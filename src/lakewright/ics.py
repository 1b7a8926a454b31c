"""Calendars as other programs read them.

Source: RFC 5545, sections 3.1 (lines of 75 octets), 3.3.11 (text), 3.6.1 (an event).
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Iterator

OCTETS = 75


def calendar_text(maker: str, lines: Iterable[str]) -> str:
    """A calendar of lines, those of its events among them; the same lines make the same text.

    Parameters
    ----------
    maker : what of ours writes it
    lines : each with its name, its words as `text` has them
    """
    whole = ["BEGIN:VCALENDAR", "VERSION:2.0", f"PRODID:-//Lakewright//{maker}//EN", *lines, "END:VCALENDAR"]
    return "".join(f"{part}\r\n" for line in whole for part in _folded(line))


def text(words: str) -> str:
    """Words as a calendar holds them: line ends stay, other marks that print nothing do not.

    >>> text("one, two;\\r\\nthree\\x07")
    'one\\\\, two\\\\;\\\\nthree'
    """
    for sign in ("\\", ";", ","):
        words = words.replace(sign, f"\\{sign}")
    words = words.replace("\r\n", "\n").replace("\r", "\n")
    return "".join(letter for letter in words if letter in "\n\t" or _prints(letter)).replace("\n", "\\n")


def _prints(letter: str) -> bool:
    return unicodedata.category(letter) not in ("Cc", "Cs")


def _folded(line: str) -> Iterator[str]:
    """A line in pieces of no more than 75 octets, none of which cuts a letter."""
    piece, used = "", 0
    for letter in line:
        octets = len(letter.encode("utf-8"))
        if used + octets > OCTETS:
            yield piece
            piece, used = " ", 1
        piece, used = piece + letter, used + octets
    yield piece
