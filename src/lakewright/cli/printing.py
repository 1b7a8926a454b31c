"""How a command ends, and how it prints: what was found on the one stream, how far it has come on the other."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from typing import Any

PASSED, FAILED, UNUSABLE = 0, 1, 2
"""Exit codes: every must holds or is tight; one does not; the file is of no use."""


Adder = Callable[[str, Callable[[argparse.Namespace], int], str], argparse.ArgumentParser]
"""Adds a command: its name, what runs it, and what it does in words."""


def print_lines(lines: Iterable[str]) -> None:
    """Write lines without the blanks at their ends."""
    sys.stdout.write("\n".join(line.rstrip() for line in lines) + "\n")


def print_json(values: Mapping[str, Any]) -> None:
    """Write plain values as one JSON object."""
    print_lines([json.dumps(values, ensure_ascii=False, allow_nan=False, indent=1)])


Told = Callable[[str], None]
"""Says how far something has come, over what it said before."""


@contextmanager
def watched() -> Iterator[Told | None]:
    """Whom to tell how far something has come: nobody where nobody watches; what was told is gone at the end."""
    if not sys.stderr.isatty():
        yield None
        return
    try:
        yield _tell
    finally:
        print("\r\033[K", end="", file=sys.stderr, flush=True)


def _tell(words: str) -> None:
    print(f"\r\033[K{words}", end="", file=sys.stderr, flush=True)


def searched(tell: Told | None) -> Callable[[int, int], None] | None:
    """The same for a search, which counts circuits."""
    if tell is None:
        return None
    return lambda done, every: tell(f"{done:,} of {every:,} circuits" if done < every else "pricing what may be picked")


def counted(tell: Told | None, what: str) -> Callable[[int, int], None] | None:
    """The same for what takes one thing after the other."""
    return None if tell is None else lambda done, every: tell(f"{done:,} of {every:,} {what}")
