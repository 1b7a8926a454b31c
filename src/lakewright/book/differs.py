"""Two edits of one text beside each other, value by value: where each differs from what both began with."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from typing import Any

from lakewright.book.changes import plain_word, values_of

BARE = re.compile(r"[A-Za-z0-9_-]+")


@dataclass(frozen=True)
class Differs:
    """A value by its dotted path, rows counted from 1, as it was and in each of two edits; empty where there is none.

    by_them, by_you : which of the two changed it
    """

    path: str
    was: str
    theirs: str
    yours: str

    @property
    def by_them(self) -> bool:
        """Whether their edit changed it."""
        return self.theirs != self.was

    @property
    def by_you(self) -> bool:
        """Whether yours did."""
        return self.yours != self.was


def differing(base: str, theirs: str, yours: str) -> list[Differs] | None:
    """Every value in which the two edits differ; None where a text is no TOML, and nothing can be told value by value.

    >>> differing('[pump]\\nheight = "7 ft"\\n', '[pump]\\nheight = "9 ft"\\n', '[pump]\\nheight = "7 ft" # so\\n')
    [Differs(path='pump.height', was='7 ft', theirs='9 ft', yours='7 ft')]
    """
    try:
        was, one, other = (values_of(text, _key, _typed) for text in (base, theirs, yours))
    except (ValueError, RecursionError):
        return None
    paths = dict.fromkeys([*one, *other])
    return [
        Differs(path, was.get(path, ""), one.get(path, ""), other.get(path, ""))
        for path in paths
        if one.get(path, "") != other.get(path, "")
    ]


def _key(name: str) -> str:
    return name if BARE.fullmatch(name) else json.dumps(name, ensure_ascii=False)


def _typed(value: Any) -> str:
    """A value as a person would type it."""
    if isinstance(value, list):
        return f"[{', '.join(json.dumps(each, ensure_ascii=False, default=str) for each in value)}]"
    return plain_word(value)
