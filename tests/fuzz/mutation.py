"""Rough handling of a file: a sound one with a few things done to it, the same ones for the same seed."""

from __future__ import annotations

import random
import re
from collections.abc import Sequence

SCRAPS: tuple[bytes, ...] = tuple(
    text.encode("utf-8", "surrogatepass")
    for text in (
        "", "\n", "\r\n", "\r", "\0", ",", ";", "\t", "'", '"', '""', '"""', "=", "[", "]", "{", "}", "<", ">", "&",
        "#", "\\", "/", "../", "/etc/passwd", ".", "-", "+", "_", " ", "\u00a0", "\u2028", "\u200f\u05d0", "\ufeff",
        "\U0001f4a7", "é", "²", "½", "٣", "−3", "1,5", "1.234,5", "1,234.5", "0", "-0", "-1", "1", "1e999",
        "-1e999", "1e308", "1e-308", "1e15", "nan", "inf", "-inf", "0x10", "1_000", "9" * 30, "9" * 5000, "x" * 300,
        "x" * 200_000, "true", "null", "[]", "{}", "[[[[", "=1+1", "=cmd|' /C calc'!A0",
        "<script>alert(1)</script>", "]]>", "<!DOCTYPE x>", "&#0;", "\\ud800", "%s", "{0}", "{x}", "${x}",
        "`id`", "$(id)",
        "1899-12-30", "2026-02-30", "9999-12-31", "0001-01-01", "45000", "1 ft", "0 ft", "-5 ft", "1e-9 ft",
        "1e9 ft", "5 m", "1e300 m", "10..14 ft", "14..10 ft", "12 +- 1 ft", "12 +- 900 ft", "open", "none", "5 gpm",
        "0 gpm", "30 psi", "-40 psi", "10 %", "100 %", "1000 %", "60 F", "-500 F", "300 K", "5 min", "0 s", "1 hp",
        "0 V", "\ud800",
    )
)  # fmt: skip
"""What is put in: signs that part or quote, figures at their ends, odd letters, other programs' formulas."""

_NUMBER = re.compile(rb"\d+(?:[.,]\d+)?")
_VALUE = re.compile(rb'"[^"\n]*"')
_CELL = re.compile(rb"[^,;\t\n]+")


def mutated(data: bytes, other: bytes, dice: random.Random) -> bytes:
    """A file with one to four things done to it; `other` is a second sound one, of which pieces may be taken."""
    for _ in range(dice.choice((1, 1, 1, 2, 2, 3, 4))):
        data = dice.choice(_WAYS)(data, other, dice)
    return data[:2_000_000]


def _span(data: bytes, dice: random.Random, most: int = 60) -> tuple[int, int]:
    start = dice.randint(0, len(data))
    return start, min(len(data), start + dice.randint(0, most))


def _scrap(data: bytes, _: bytes, dice: random.Random) -> bytes:
    start, end = _span(data, dice, 8)
    return data[:start] + dice.choice(SCRAPS) + data[end:]


def _bytes(data: bytes, _: bytes, dice: random.Random) -> bytes:
    start, end = _span(data, dice, 3)
    return data[:start] + dice.randbytes(dice.randint(1, 4)) + data[end:]


def _cut(data: bytes, _: bytes, dice: random.Random) -> bytes:
    start, end = _span(data, dice, 400)
    return data[:start] + data[end:]


def _twice(data: bytes, _: bytes, dice: random.Random) -> bytes:
    start, end = _span(data, dice, 200)
    return data[:end] + data[start:end] + data[end:]


def _ended(data: bytes, _: bytes, dice: random.Random) -> bytes:
    return data[: dice.randint(0, len(data))]


def _joined(data: bytes, other: bytes, dice: random.Random) -> bytes:
    return data[: dice.randint(0, len(data))] + other[dice.randint(0, len(other)) :]


def _put_for(pattern: re.Pattern[bytes], quoted: bool = False) -> object:
    def way(data: bytes, other: bytes, dice: random.Random) -> bytes:
        found = list(pattern.finditer(data))
        if not found:
            return _scrap(data, other, dice)
        at = dice.choice(found)
        new = dice.choice(SCRAPS)
        if quoted and dice.random() < 0.8:
            new = b'"' + new.replace(b'"', b"").replace(b"\n", b"").replace(b"\r", b"").replace(b"\\", b"") + b'"'
        return data[: at.start()] + new + data[at.end() :]

    return way


def _value_of_another(data: bytes, other: bytes, dice: random.Random) -> bytes:
    here, there = list(_VALUE.finditer(data)), list(_VALUE.finditer(other))
    if not here or not there:
        return _joined(data, other, dice)
    at = dice.choice(here)
    return data[: at.start()] + dice.choice(there).group() + data[at.end() :]


def _scaled(data: bytes, other: bytes, dice: random.Random) -> bytes:
    found = list(_NUMBER.finditer(data))
    if not found:
        return _scrap(data, other, dice)
    at = dice.choice(found)
    number = (
        float(at.group().replace(b",", b".")) * 10.0 ** dice.choice((-6, -3, -1, 1, 3, 6)) * dice.choice((1, 1, -1))
    )
    return data[: at.start()] + f"{number:g}".encode() + data[at.end() :]


def _lines_changed(data: bytes, other: bytes, dice: random.Random) -> bytes:
    lines = data.split(b"\n")
    one, two = dice.randrange(len(lines)), dice.randrange(len(lines))
    way = dice.randrange(4)
    if way == 0:
        lines[one], lines[two] = lines[two], lines[one]
    elif way == 1:
        del lines[one]
    elif way == 2:
        lines.insert(one, lines[two])
    else:
        lines.insert(one, dice.choice(other.split(b"\n")))
    return b"\n".join(lines)


def _saved_otherwise(data: bytes, _: bytes, dice: random.Random) -> bytes:
    """As another machine would save it."""
    text = data.decode("utf-8", "replace")
    way = dice.randrange(6)
    if way == 0:
        return data.replace(b"\r\n", b"\n").replace(b"\n", b"\r\n")
    if way == 1:
        return data.replace(b"\n", b"\r")
    if way == 2:
        return b"\xef\xbb\xbf" + data
    if way == 3:
        return text.encode("utf-16")
    if way == 4:
        return text.encode("cp1252", "replace")
    return re.sub(rb"(\d)\.(\d)", rb"\1,\2", data)


_WAYS: Sequence[object] = (
    _scrap, _scrap, _bytes, _cut, _twice, _ended, _joined, _put_for(_NUMBER), _put_for(_VALUE, True),
    _put_for(_VALUE, True), _put_for(_CELL), _put_for(_CELL), _value_of_another, _scaled, _scaled, _lines_changed,
    _lines_changed, _saved_otherwise,
)  # fmt: skip
