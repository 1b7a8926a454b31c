"""Where things stand in a TOML text: the line of each key for messages, its place for writing it back.

The text has already been read by tomllib, so it is valid; what is wanted here is only where things are,
down to a key of an inline table in the middle of a long list.
"""

from __future__ import annotations

import re
import tomllib
from bisect import bisect_left
from dataclasses import dataclass
from typing import NamedTuple

Path = tuple[str | int, ...]

_TOKEN = re.compile(
    r'''
    (?: [ \t\r\ufeff]+ | \#[^\n]* )*+
    (?:
      (?P<text>  """(?:[^\\]|\\.)*?"{3,5} | \'\'\'.*?\'{3,5} | "(?:[^"\\\n]|\\.)*" | '[^'\n]*' )
    | (?P<mark>  [\[\]{}=,.\n] )
    | (?P<bare>  [^\s\[\]{}=,."'\#]+ )
    )
    ''',
    re.VERBOSE | re.DOTALL,
)


@dataclass(frozen=True, slots=True)
class Pair:
    """A key and its value: where the key begins, the equals sign is, and the value begins and ends."""

    key: int
    equals: int
    start: int
    end: int
    table: Path  # the table it is written in, which for a dotted key is not the table it belongs to


@dataclass(slots=True)
class Block:
    """A header and the pairs under it. `end` is where its last pair, or the header itself, ends."""

    path: Path
    start: int
    end: int


class _Token(NamedTuple):
    mark: str  # itself where it is one, or nothing
    text: str
    start: int
    end: int


def _token(match: re.Match[str]) -> _Token:
    kind = match.lastgroup or ""
    text = match[kind]
    return _Token(text if kind == "mark" else "", text, *match.span(kind))


class Layout:
    """One pass over the tokens of a valid TOML text. Lists count from 0.

    `lines` has every key, table and list item; `pairs` every key with a value; `items` the place of every
    item of a list in brackets; `blocks` the headers in order, the first standing for what is before any.
    """

    def __init__(self, text: str) -> None:
        self.lines: dict[Path, int] = {}
        self.pairs: dict[Path, Pair] = {}
        self.items: dict[Path, tuple[int, int]] = {}
        self.blocks: list[Block] = [Block((), 0, 0)]
        self._lengths: dict[Path, int] = {}  # of each list of tables, so far
        # With an end of line after it, which a comment at its end would else lack.
        self._tokens = [_token(match) for match in _TOKEN.finditer(f"{text}\n")]
        self._line_ends = [match.start() for match in re.finditer("\n", text)]
        self._at = 0
        self._read()

    def _read(self) -> None:
        tokens, last = self._tokens, len(self._tokens)
        while self._at < last:
            mark = tokens[self._at].mark
            if mark == "\n":
                self._at += 1
            elif mark == "[":
                self.blocks.append(self._header())
            else:
                self.blocks[-1].end = self._pair(self.blocks[-1].path)

    def _line(self, at: int) -> int:
        """The line of a place in the text, from 1."""
        return bisect_left(self._line_ends, at) + 1

    def _mark(self) -> str:
        return self._tokens[self._at].mark

    def _skip_newlines(self) -> None:
        while self._mark() == "\n":
            self._at += 1

    def _header(self) -> Block:
        first = self._tokens[self._at]
        line = self._line(first.start)
        self._at += 1
        many = self._mark() == "["
        self._at += many
        parts = self._key()
        self._at += 1 + many
        table: Path = ()
        for part in parts[:-1]:
            table = self._inside((*table, part))
            self.lines.setdefault(table, line)
        table = (*table, parts[-1])
        self.lines.setdefault(table, line)
        if many:
            index = self._lengths.get(table, 0)
            self._lengths[table] = index + 1
            table = (*table, index)
        else:
            table = self._inside(table)
        self.lines.setdefault(table, line)
        return Block(table, first.start, self._tokens[self._at - 1].end)

    def _inside(self, table: Path) -> Path:
        """The table a header means: for a list of tables, its last."""
        return (*table, self._lengths[table] - 1) if table in self._lengths else table

    def _key(self) -> list[str]:
        """The parts of a dotted key; stops before the mark that ends it."""
        parts = []
        while True:
            token = self._tokens[self._at]
            if not token.mark:
                quoted = token.text[0] in "\"'"
                parts.append(next(iter(tomllib.loads(f"{token.text} = 0"))) if quoted else token.text)
            elif token.mark != ".":
                return parts
            self._at += 1

    def _pair(self, table: Path) -> int:
        """One key and its value; returns where the value ends."""
        first = self._tokens[self._at]
        line, path = self._line(first.start), table
        for part in self._key():
            path = (*path, part)
            self.lines.setdefault(path, line)
        equals = self._tokens[self._at].start
        self._at += 1
        start = self._tokens[self._at].start
        end = self._value(path)
        self.pairs[path] = Pair(first.start, equals, start, end, table)
        return end

    def _value(self, path: Path) -> int:
        opening = self._mark()
        if opening not in ("[", "{"):
            while self._mark() in ("", "."):
                self._at += 1
            return self._tokens[self._at - 1].end
        closing = "]" if opening == "[" else "}"
        index = 0
        self._at += 1
        self._skip_newlines()
        while self._mark() != closing:
            if opening == "[":
                item = (*path, index)
                first = self._tokens[self._at]
                self.lines.setdefault(item, self._line(first.start))
                self.items[item] = (first.start, self._value(item))
                index += 1
            else:
                self._pair(path)
            self._skip_newlines()
            self._at += self._mark() == ","
            self._skip_newlines()
        self._at += 1
        return self._tokens[self._at - 1].end


def lines_of(text: str) -> dict[Path, int]:
    """The line, from 1, of every key, table and list item. Empty where a text is too odd to follow."""
    try:
        return Layout(text).lines
    except (RecursionError, IndexError):
        return {}
