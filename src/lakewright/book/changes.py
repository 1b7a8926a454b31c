"""What changed between two revisions of a text: value by value, in the order of the later one."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from lakewright.job.read import toml_data


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
        old, new = values_of(before), values_of(after)
    except (ValueError, RecursionError):
        return None
    return [
        Change(path, old.get(path, ""), new.get(path, ""))
        for path in [*new, *(path for path in old if path not in new)]
        if old.get(path) != new.get(path)
    ]


def values_of(text: str, key: Callable[[str], str] = str, word: Callable[[Any], str] | None = None) -> dict[str, str]:
    """Every value of a TOML text by its dotted path, rows counted from 1; `key` and `word` say how each is written.

    Raises
    ------
    ValueError, RecursionError where it is no TOML
    """
    return dict(_values(toml_data(text), "", key, word or plain_word))


def _values(data: Any, path: str, key: Callable[[str], str], word: Callable[[Any], str]) -> Iterator[tuple[str, str]]:
    if isinstance(data, dict):
        for name, value in data.items():
            yield from _values(value, f"{path}.{key(name)}" if path else key(name), key, word)
    elif isinstance(data, list) and any(isinstance(each, dict) for each in data):
        for number, value in enumerate(data, start=1):
            yield from _values(value, f"{path}.{number}", key, word)
    else:
        yield path, word(data)


def words_at(text: str, *paths: str) -> tuple[str, ...]:
    """The values at dotted paths of a text; empty where there is none, or it is no TOML.

    >>> words_at('[job]\\ntitle = "Heron Point"\\n', "job.title", "job.customer")
    ('Heron Point', '')
    """
    try:
        found = values_of(text)
    except (ValueError, RecursionError):
        found = {}
    return tuple(found.get(path, "") for path in paths)


def plain_word(value: Any) -> str:
    """A value in plain words."""
    if isinstance(value, list):
        return f"[{', '.join(map(plain_word, value))}]"
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, (datetime.date, datetime.time)):
        return value.isoformat()
    return str(value)
