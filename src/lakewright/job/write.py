"""Writing a job file back: values change, and every other byte stays as it was.

A place in the file is a dotted path, with rows counted from 1 as messages count them: `site.levels.low`,
`site.days.2.level`. A key that is not bare goes in quotes, as in TOML: `have."old pump".age`.

The text is changed in place rather than read and written anew: the library that keeps comments loses the
blank between a date and the brace after it, and with it the promise that nothing else moves.
"""

from __future__ import annotations

import datetime
import re
import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from lakewright.errors import AskError
from lakewright.job.disk import put
from lakewright.job.layout import Layout, Pair
from lakewright.job.layout import Path as Keys
from lakewright.job.read import toml_data

_PART = re.compile(r'(?:"((?:[^"\\]|\\.)*)"|([A-Za-z0-9_-]+))(?:\.(?=.)|$)')
_INTEGER = re.compile(r"[+-]?(0|[1-9][0-9]{0,14})")
_NUMBER = re.compile(r"[+-]?(0|[1-9][0-9]{0,14})(\.[0-9]{1,15})?")
_BARE = re.compile(r"[A-Za-z0-9_-]+")
_BESIDE_A_VALUE = ("told", "measured", "looked_up", "assumed", "note")


def set_values(text: str, changes: Mapping[str, str]) -> str:
    """The text with each value set by its dotted path; an empty value takes the key, row or table out.

    Values come as a person types them. Text and quantities are put in quotes; numbers, dates, true and false
    are not, where the field takes one. A quantity with a standing keeps its standing.
    """
    for dotted, value in changes.items():
        text = _set(text, keys_of(dotted), value, dotted)
    return text


def keys_of(dotted: str) -> Keys:
    """The keys of a dotted path; rows count from 0 here."""
    keys: list[str | int] = []
    at = 0
    while at < len(dotted) or not keys:
        match = _PART.match(dotted, at)
        if match is None:
            raise AskError(f"{dotted!r} is no path of keys such as site.levels.low or site.days.2.level")
        quoted, bare = match.groups()
        if quoted is not None:
            keys.append(_unquoted(quoted, dotted))
        elif bare.isdecimal() and int(bare[:7]) >= 1 and _holds_rows(tuple(keys)):
            keys.append(int(bare[:7]) - 1)
        else:
            keys.append(bare)
        at = match.end()
    return tuple(keys)


def _unquoted(quoted: str, dotted: str) -> str:
    try:
        return next(iter(tomllib.loads(f'"{quoted}" = 0')))
    except ValueError:
        raise AskError(f"{dotted!r} has a key in quotes that is not TOML") from None


def _holds_rows(keys: Keys) -> bool:
    from lakewright.job.fields import shape_at

    shape = shape_at(keys)
    return shape is not None and shape.form in ("rows", "list")


def _set(text: str, keys: Keys, value: str, dotted: str) -> str:
    try:
        data, layout = toml_data(text), Layout(text)
    except (ValueError, IndexError, RecursionError) as problem:
        raise AskError(f"the file is not TOML, so no value in it can be set: {problem}") from None
    now = value_at(data, keys)
    if isinstance(now, dict) and "value" in now and value.strip():
        keys, now = (*keys, "value"), now["value"]
    if not value.strip():
        # A row taken out moves those after it, so the rows are compared whole.
        changed = text if now is None else _without(text, keys, layout)
        return _proven(changed, data, keys[:-1] if isinstance(keys[-1], int) else keys, dotted)
    changed = _with(text, keys, _written(keys, value), layout, data, dotted)
    return _proven(changed, data, keys, dotted)


def _proven(changed: str, before: Any, keys: Keys, dotted: str) -> str:
    """The changed text, once it is known to read back with this value changed and no other."""
    try:
        after = toml_data(changed)
    except ValueError:
        after = None
    if after is None or _pruned(_planted(before, keys, value_at(after, keys))) != _pruned(after):
        raise AskError(f"{dotted} cannot be changed in place in this file; change it by hand")
    return changed


def value_at(data: Any, keys: Keys) -> Any:
    """What stands at some keys of plain data; nothing where they lead nowhere."""
    for key in keys:
        if isinstance(data, dict):
            data = data.get(key)
        elif isinstance(data, list) and isinstance(key, int) and key < len(data):
            data = data[key]
        else:
            return None
    return data


def _planted(data: Any, keys: Keys, value: Any) -> Any:
    """A copy of the data with one value in its place, and what holds it made where there is nothing."""
    if not keys:
        return value
    key, rest = keys[0], keys[1:]
    if isinstance(key, int):
        rows = list(data) if isinstance(data, list) else []
        rows[key : key + 1] = [_planted(rows[key] if key < len(rows) else None, rest, value)]
        return [row for row in rows if row is not None]
    table = dict(data) if isinstance(data, dict) else {} if data is None else {"value": data}
    table[key] = _planted(table.get(key), rest, value)
    return table


def _pruned(data: Any) -> Any:
    """The data without what is empty, and with numbers as text, so that nan equals itself."""
    if isinstance(data, dict):
        pruned = {key: _pruned(value) for key, value in data.items()}
        return {key: value for key, value in pruned.items() if value not in (None, {}, [])}
    if isinstance(data, list):
        return [_pruned(value) for value in data]
    return repr(data) if isinstance(data, float) else data


# Changing a text.


def _with(text: str, keys: Keys, written: str, layout: Layout, data: Any, dotted: str) -> str:
    parent, last = keys[:-1], keys[-1]
    span = _span(keys, layout)
    if span is not None:
        return text[: span[0]] + written + text[span[1] :]
    if isinstance(value_at(data, keys), (dict, list)):
        raise AskError(f"{dotted} is a table of many values; name one of them")
    holder = value_at(data, parent)
    held = _span(parent, layout)
    if held is not None and not isinstance(holder, (dict, list)):
        if last not in _BESIDE_A_VALUE:
            raise AskError(f"{dotted} leads through a value, not a table")
        return f"{text[: held[0]]}{{ value = {text[held[0] : held[1]]}, {last} = {written} }}{text[held[1] :]}"
    if isinstance(last, int):
        if not isinstance(holder, list) and last == 0:
            return _insert_pair(text, parent, f"[{written}]", layout)
        _refuse_gap(last, holder, dotted)
    elif isinstance(parent[-1] if parent else None, int) and holder is None:
        rows = value_at(data, parent[:-1])
        _refuse_gap(int(parent[-1]), rows, dotted)
        held = _span(parent[:-1], layout)
        if held is not None:
            return _insert_inside(text, parent[:-1], held, f"{{ {_key(last)} = {written} }}", layout)
    if held is not None:
        pair = written if isinstance(last, int) else f"{_key(last)} = {written}"
        return _insert_inside(text, parent, held, pair, layout)
    return _insert_pair(text, keys, written, layout)


def _refuse_gap(index: int, rows: Any, dotted: str) -> None:
    length = len(rows) if isinstance(rows, list) else 0
    if index > length:
        raise AskError(f"{dotted}: the next row is number {length + 1}")


def _span(keys: Keys, layout: Layout) -> tuple[int, int] | None:
    """Where a value begins and ends, if it is written as a value and not as a header."""
    pair = layout.pairs.get(keys)
    return (pair.start, pair.end) if pair else layout.items.get(keys)


def _insert_inside(text: str, holder: Keys, held: tuple[int, int], what: str, layout: Layout) -> str:
    """Add to a list or table that is written between brackets, after what it has."""
    start, end = held
    places = [*layout.items.items(), *((path, (pair.key, pair.end)) for path, pair in layout.pairs.items())]
    ends = [end_of for path, (at, end_of) in places if start < at < end and path[: len(holder)] == holder]
    if ends:
        after = max(ends)
        return f"{text[:after]}, {what}{text[after:]}"
    blank = " " if text[start] == "{" else ""
    return f"{text[: start + 1]}{blank}{what}{blank}{text[end - 1 :]}"


def _insert_pair(text: str, keys: Keys, written: str, layout: Layout) -> str:
    """Add a key to a table with a header, making the table and its header where there is none."""
    end_of_line = "\r\n" if "\r\n" in text else "\n"
    parent, last = keys[:-1], keys[-1]
    block = next((each for each in layout.blocks if each.path == parent and (parent or each.end)), None)
    if block is not None:
        line = f"{_key(last).ljust(_column(parent, layout))} = {written}"
        at = _line_end(text, block.end)
        return f"{text[:at]}{end_of_line}{line}{text[at:]}"
    owner = next((pair for path, pair in layout.pairs.items() if _is_dotted_inside(path, pair, parent)), None)
    if owner is not None:
        key = ".".join(_key(part) for part in keys[len(owner.table) :])
        at = _line_end(text, owner.end)
        return f"{text[:at]}{end_of_line}{key} = {written}{text[at:]}"
    if not parent:
        start = 1 if text.startswith("\ufeff") else 0
        return f"{text[:start]}{_key(last)} = {written}{end_of_line}{text[start:]}"
    return _insert_block(text, parent, f"{_key(last)} = {written}", layout, end_of_line)


def _insert_block(text: str, table: Keys, line: str, layout: Layout, end_of_line: str) -> str:
    """Add a header with one line under it, after the blocks it belongs with."""
    near, at = table, len(text)
    while near:
        ends = [block.end for block in layout.blocks if block.path[: len(near)] == near]
        if ends:
            at = _line_end(text, max(ends))
            break
        near = near[:-1]
    before, after = text[:at], text[at:]
    empty = not before.strip("\ufeff \t\r\n")
    lead = "" if empty else end_of_line if before.endswith("\n") else 2 * end_of_line
    tail = "" if after else end_of_line
    return f"{before}{lead}{_header(table)}{end_of_line}{line}{tail}{after}"


def _is_dotted_inside(path: Keys, pair: Pair, parent: Keys) -> bool:
    """Whether a pair's dotted key, by passing through `parent`, is what makes that table."""
    return (
        len(pair.table) < len(parent) < len(path)
        and path[: len(parent)] == parent
        and not any(isinstance(part, int) for part in path[len(pair.table) :])
    )


def _header(path: Keys) -> str:
    dotted = ".".join(_key(part) for part in path if isinstance(part, str))
    return f"[[{dotted}]]" if isinstance(path[-1], int) else f"[{dotted}]"


def _column(table: Keys, layout: Layout) -> int:
    """The width that the last key above is padded to, so that equals signs stay in line."""
    widths = [pair.equals - pair.key for pair in layout.pairs.values() if pair.table == table]
    return widths[-1] - 1 if widths else 0


def _line_end(text: str, at: int) -> int:
    end = text.find("\n", at)
    if end < 0:
        return len(text)
    return end - 1 if text[end - 1] == "\r" else end


def _without(text: str, keys: Keys, layout: Layout) -> str:
    pair = layout.pairs.get(keys)
    if pair is not None and any(block.path == pair.table for block in layout.blocks):
        return _without_lines(text, pair.key, pair.end)
    span = (pair.key, pair.end) if pair else layout.items.get(keys)
    if span is not None:
        before = re.search(r",\s*$", text[: span[0]])
        if before:
            return text[: before.start()] + text[span[1] :]
        after = re.match(r"\s*,[ \t]*", text[span[1] :])
        return text[: span[0]] + text[span[1] + (after.end() if after else 0) :]
    for index in range(len(layout.blocks) - 1, 0, -1):
        block = layout.blocks[index]
        if block.path[: len(keys)] == keys:
            text = _without_lines(text, block.start, block.end)
    for path, pair in sorted(layout.pairs.items(), key=lambda each: -each[1].key):
        if path[: len(keys)] == keys and len(pair.table) < len(keys) and path != keys:
            text = _without_lines(text, pair.key, pair.end)
    return text


def _without_lines(text: str, start: int, end: int) -> str:
    """The text without whole lines, from that of `start` to that of `end`."""
    first = text.rfind("\n", 0, start) + 1
    if text.startswith("\ufeff") and first == 0:
        first = 1
    following = text.find("\n", end)
    return text[:first] + (text[following + 1 :] if following >= 0 else "")


def _key(part: str | int) -> str:
    return part if isinstance(part, str) and _BARE.fullmatch(part) else _quoted(str(part))


def _quoted(text: str) -> str:
    """A TOML string on one line."""
    named = {"\\": "\\\\", '"': '\\"', "\n": "\\n", "\t": "\\t", "\r": "\\r"}
    return '"' + re.sub(r'[\\"\x00-\x1f\x7f]', lambda m: named.get(m[0], f"\\u{ord(m[0]):04x}"), text) + '"'


def _written(keys: Keys, value: str) -> str:
    """A value as typed, as TOML: in the form that its field takes, or as text."""
    from lakewright.job.fields import shape_at

    typed = value.strip()
    shape = shape_at(keys[:-1] if keys[-1] == "value" else keys) or shape_at(keys)
    if shape is None:
        is_standing = keys[-1] in _BESIDE_A_VALUE[:-1]
        return typed if is_standing and (typed == "true" or _is_date(typed)) else _quoted(value)
    if shape.dimension and shape.dimension.dimension in ("count", "share") and _NUMBER.fullmatch(typed):
        return typed
    plain = {
        "count": bool(_INTEGER.fullmatch(typed)),
        "truth": typed in ("true", "false"),
        "date": _is_date(typed),
        "list": typed.startswith("["),
        "counts": typed.startswith("{"),
    }
    return typed if plain.get(shape.form) else _quoted(value if shape.form == "text" else typed)


def _is_date(typed: str) -> bool:
    try:
        return bool(re.fullmatch(r"\d{4}-\d\d-\d\d", typed)) and bool(datetime.date.fromisoformat(typed))
    except ValueError:
        return False


def write_job(path: Path, text: str) -> None:
    """Write a job file whole or not at all: never half of it, and never the old one lost."""
    put({path: text.encode("utf-8")})


def write_or_say(path: Path, text: str) -> None:
    """The same of a text that somebody asked for.

    Raises
    ------
    AskError where it cannot be written there
    """
    try:
        write_job(path, text)
    except OSError as error:
        raise AskError(f"{path}: {error.strerror or error}; name a file in a folder you can write in") from None
