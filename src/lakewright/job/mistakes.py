"""What the model refuses, in words: the line, the key, what was found, what was wanted, what to write."""

from __future__ import annotations

import difflib
import json
import re
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from lakewright.errors import Mistake, UnitError
from lakewright.job.fields import example, header, homes, is_of_months, shape_at, shapes
from lakewright.job.layout import Path, lines_of
from lakewright.job.quantity import FieldProblem, echo
from lakewright.job.table import LONGEST_TEXT, MOST_COUNT, MOST_ROWS, Table

if TYPE_CHECKING:
    from pydantic import ValidationError

MOST_MISTAKES = 500  # ours: more is one mistake made many times, and nobody reads on
LONGEST_FOUND = 250  # ours: a unit reader may echo a whole quantity, of which 200 letters are the most it reads
_TABLES = ("table", "rows", "tables")


def mistakes_of(problem: ValidationError, text: str, file: str, root: type[Table], what: str) -> list[Mistake]:
    """Every mistake the model found in a text, with its line. `root` is the model, and `what` the file should be."""
    lines = lines_of(text)
    errors: list[Any] = list(problem.errors(include_url=False))
    found = [_mistake(error, lines, file, root) for error in errors[:MOST_MISTAKES]]
    more = len(errors) - len(found)
    if more > 0:
        last = max(mistake.line for mistake in found)
        found.append(Mistake(file, last, "", f"{more} more mistakes", what, "mend those above and look again"))
    return found


def _mistake(error: dict[str, Any], lines: dict[Path, int], file: str, root: type[Table]) -> Mistake:
    path: Path = tuple(error["loc"])
    kind = error["type"]
    if path and path[-1] == "[key]":
        path = path[:-1]
        found, wanted, remedy = (
            echo(path[-1]),
            f"a name of at most {LONGEST_TEXT} letters",
            "give it a shorter name",
        )
    elif kind == "extra_forbidden":
        found, wanted, remedy = _unknown_key(path, root)
    elif kind == "missing":
        shape = shape_at(path, root)
        found, wanted = "nothing", _as_words(shape.description) if shape else "a value"
        remedy = f"write {_written_key(path)} = " + (example(shape) if shape else '"..."')
    elif kind == "value_error":
        cause = error["ctx"]["error"]
        found, wanted, remedy, path = _refused(cause, path)
    else:
        found, wanted, remedy = _wrong_form(error, path, root)
    return Mistake(file, _line(path, lines), place_of(path, root), found, wanted, remedy)


def _line(path: Path, lines: dict[Path, int]) -> int:
    for end in range(len(path), 0, -1):
        if path[:end] in lines:
            return lines[path[:end]]
    return 0


def place_of(path: Path, root: type[Table]) -> str:
    """A path as a message names it: [site.levels] low, or [[site.days]] 2, level."""
    end = max(end for end in range(len(path) + 1) if end == 0 or _is_table(path[:end], root))
    table, rest = path[:end], path[end:]
    names = ".".join(_shown(part) for part in table if isinstance(part, str))
    place = f"[[{names}]] {table[-1] + 1}" if table and isinstance(table[-1], int) else f"[{names}]" if names else ""
    if not table and len(rest) == 1 and (shape := shape_at(rest, root)) and shape.form in _TABLES:
        return f"[{rest[0]}]"
    key = ""
    for part in rest:
        if isinstance(part, int):
            key += f", item {part + 1}"
        else:
            key += f".{_shown(part)}" if key else _shown(part)
    between = ", " if place.endswith(tuple("0123456789")) and key else " "
    return f"{place}{between}{key}".strip()


def _is_table(path: Path, root: type[Table]) -> bool:
    shape = shape_at(path, root)
    return shape is not None and shape.form == "table"


def _shown(part: str) -> str:
    return part if re.fullmatch(r"[A-Za-z0-9_-]{1,60}", part) else echo(part)


def _written_key(path: Path) -> str:
    return next((_shown(part) for part in reversed(path) if isinstance(part, str)), "value")


def _as_words(description: str) -> str:
    return description[:1].lower() + description[1:].rstrip(".")


def _unknown_key(path: Path, root: type[Table]) -> tuple[str, str, str]:
    key = str(path[-1])
    holder = shape_at(path[:-1], root)
    known = list(shapes((holder.table if holder else None) or root))
    found = f"the unknown key {echo(key)}"
    wanted = f"one of {', '.join(known)}"
    close = difflib.get_close_matches(key[:40], known, n=1)
    elsewhere = homes(root).get(key, ())
    if close:
        return found, wanted, f"did you mean {close[0]}?"
    if elsewhere:
        return found, wanted, f"{key} belongs in {' or '.join(elsewhere)}"
    far = difflib.get_close_matches(key[:40], list(homes(root)), n=1, cutoff=0.8)  # ours: 0.8 is a letter or two off
    if far:
        return found, wanted, f"did you mean {far[0]}? It belongs in {' or '.join(homes(root)[far[0]])}"
    return found, wanted, "take it out, or put what it says in a note"


LEAST_NEAR = 0.6
"""ours: two words that share fewer of their letters are taken for different ones; it is what difflib takes too."""


def nearest_first(given: object, choices: Sequence[str]) -> tuple[Sequence[str], str]:
    """Phrases one may choose of, those nearest to what was given first, and the nearest where one is near.

    Single words stay in their own order, in which a reader knows them, and so do phrases where none is near.

    >>> nearest_first("looses prime", ("lost prime once", "no water", "loses prime again and again"))
    (['loses prime again and again', 'lost prime once', 'no water'], 'loses prime again and again')
    >>> nearest_first("yess", ("no", "unknown", "yes"))
    (('no', 'unknown', 'yes'), 'yes')
    """
    if not isinstance(given, str):
        return choices, ""
    said = given[:40].casefold()
    near = {choice: _nearness(said, choice.casefold()) for choice in choices}
    best = max(choices, key=lambda choice: near[choice])
    if near[best] < LEAST_NEAR:
        return choices, ""
    if not any(" " in choice for choice in choices):
        return choices, best
    return sorted(choices, key=lambda choice: -near[choice]), best


def _nearness(said: str, choice: str) -> float:
    """How near a phrase is to another, 1 for the same: as a whole, or the words of the one among those of the other."""
    whole, words = _alike(said, choice), said.split()
    if not words or " " not in choice:
        return whole
    each = sum(max(_alike(word, other) for other in choice.split()) for word in words) / len(words)
    # A hair less than as a whole, so that the same words in the same order are nearest.
    return max(whole, 0.99 * each)


def _alike(one: str, other: str) -> float:
    return difflib.SequenceMatcher(None, one, other).ratio()


def _refused(cause: Exception, path: Path) -> tuple[str, str, str, Path]:
    if isinstance(cause, FieldProblem):
        item = bool(path) and isinstance(path[-1], int)
        write = cause.write if item else f"{_written_key(path)} = {cause.write}"
        remedy = f"write {write}" if cause.write else cause.remedy
        return cause.found, cause.wanted, remedy, (*path, *cause.at)
    if isinstance(cause, UnitError):
        found = cause.found if len(cause.found) <= LONGEST_FOUND else cause.found[:LONGEST_FOUND] + "..."
        return found, cause.wanted, cause.remedy, path
    return "a value that cannot be used", "another value", str(cause), path


def _wrong_form(error: dict[str, Any], path: Path, root: type[Table]) -> tuple[str, str, str]:
    shape = shape_at(path, root)
    given, key = error["input"], _written_key(path)
    write = "write" if path and isinstance(path[-1], int) else f"write {key} ="
    found = echo(given)
    if shape is None:
        return found, "another value", "see the reference page of the file"
    if error["type"] == "too_long":
        return found, f"at most {MOST_ROWS} rows", "keep long records in a file of their own"
    if error["type"] == "string_too_long":
        return f"text of {len(given)} letters", f"at most {LONGEST_TEXT} letters", "say it shorter"
    if shape.form == "choice":
        choices, is_near = nearest_first(given, shape.choices)
        wanted = ("one of " if len(choices) > 1 else "") + ", ".join(json.dumps(word) for word in choices)
        return found, wanted, f'did you mean "{is_near}"?' if is_near else f"{write} {example(shape)}"
    if shape.form in _TABLES:
        names = tuple(part for part in path if isinstance(part, str))
        if shape.form == "rows":
            return found, "a list of tables", f"write {header(names, 'rows')} above the keys of each"
        if shape.form == "tables":
            return (
                found,
                "tables under names of your own",
                f"write {header(names, 'tables')} above the keys of each",
            )
        head = header(names, "rows" if isinstance(path[-1], int) else "table")
        return found, "a table", f"write {head} above its keys"
    wanted, remedy = {
        "text": ("words in quotes", f'{write} "..."'),
        "count": (f"a whole number from 0 to {MOST_COUNT:,}", f"{write} 3"),
        "truth": ("true or false", f"{write} true, or {key} = false, without quotes"),
        "date": ("a date", f"{write} 2026-05-03, without quotes"),
        "list": ("a list of months" if is_of_months(shape) else "a list", f"{write} {example(shape)}"),
        "counts": ("names, with a number each", f"{write} {{ name = 2 }}"),
    }.get(shape.form, ("another value", "see the reference page of the file"))
    return found, wanted, remedy
