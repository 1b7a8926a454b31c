"""What changed between two revisions of a text: value by value, in the order of the later one."""

from __future__ import annotations

import datetime
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True)
class Change:
    """A value by its dotted path, rows counted from 1, before and after; empty where it is not there."""

    path: str
    before: str
    after: str


def changes(before: str, after: str) -> list[Change] | None:
    """Every value that differs; None where one of the texts is no TOML, and nothing can be told value by value.

    >>> changes('[pump]\\nheight = "7 ft"\\n', '[pump]\\nheight = "9 ft" # higher\\n')
    [Change(path='pump.height', before='7 ft', after='9 ft')]
    """
    try:
        old, new = (dict(_values(tomllib.loads(text.removeprefix("\ufeff")))) for text in (before, after))
    except (ValueError, RecursionError):
        return None
    return [
        Change(path, old.get(path, ""), new.get(path, ""))
        for path in [*new, *(path for path in old if path not in new)]
        if old.get(path) != new.get(path)
    ]


def words_at(text: str, *paths: str) -> tuple[str, ...]:
    """The values at dotted paths of a text; empty where there is none, or it is no TOML.

    >>> words_at('[job]\\ntitle = "Heron Point"\\n', "job.title", "job.customer")
    ('Heron Point', '')
    """
    try:
        found = dict(_values(tomllib.loads(text.removeprefix("\ufeff"))))
    except (ValueError, RecursionError):
        found = {}
    return tuple(found.get(path, "") for path in paths)


def _values(data: Any, path: str = "") -> Iterator[tuple[str, str]]:
    if isinstance(data, dict):
        for key, value in data.items():
            yield from _values(value, f"{path}.{key}" if path else key)
    elif isinstance(data, list) and any(isinstance(each, dict) for each in data):
        for number, value in enumerate(data, start=1):
            yield from _values(value, f"{path}.{number}")
    else:
        yield path, _word(data)


def _word(value: Any) -> str:
    if isinstance(value, list):
        return f"[{', '.join(map(_word, value))}]"
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, (datetime.date, datetime.time)):
        return value.isoformat()
    return str(value)
