"""The door: a job file in, a Job out, or every mistake in it at once.

Nothing heavy is imported until a job is read.
"""

from __future__ import annotations

import re
import tomllib
from dataclasses import replace
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

from lakewright.errors import JobError, Mistake

if TYPE_CHECKING:
    from lakewright.job.models import Job
    from lakewright.job.table import Table

    Root = TypeVar("Root", bound=Table)

A_JOB_FILE = "a job file"
BIGGEST = 5_000_000  # ours: bytes; a job file by hand is a few thousand
_EXAMPLE = '[job] on one line and title = "Heron Point cabin" on the next'


def read_job(path: Path) -> Job:
    """The job in a file, or JobError with all its mistakes."""
    return read_job_text(read_text(path), str(path))


def read_text(path: Path, what: str = A_JOB_FILE) -> str:
    """The text of a file as it stands, byte-order mark and line ends and all. `what` is what it should be."""
    file = str(path)
    try:
        with path.open("rb") as stream:
            raw = stream.read(BIGGEST + 1)
    except IsADirectoryError:
        raise _unusable(file, "a folder", what, "name the file inside it") from None
    except FileNotFoundError:
        raise _unusable(file, "no such file", what, _nearest_file(path)) from None
    except (OSError, ValueError) as problem:
        reason = getattr(problem, "strerror", None) or str(problem)
        raise _unusable(file, reason.lower(), f"{what} that can be read", "check its name and permissions") from None
    if len(raw) > BIGGEST:
        raise _too_big(file, what)
    try:
        return raw.decode("utf-8")
    except UnicodeDecodeError as problem:
        line = raw.count(b"\n", 0, problem.start) + 1
        found = f"the byte 0x{raw[problem.start]:02x}"
        raise JobError([Mistake(file, line, "", found, "text in UTF-8", "save the file again as UTF-8")]) from None


def read_job_text(text: str, file: str = "job.toml") -> Job:
    """The job in a text, or JobError with all its mistakes. `file` is the name that mistakes give."""
    data = read_toml(text, file, A_JOB_FILE)
    if not data:
        found = "an empty file" if not text.strip("\ufeff \t\r\n") else "a file with nothing but comments"
        raise _unusable(file, found, A_JOB_FILE, f"write {_EXAMPLE}")
    from lakewright.job.models import Job

    about = data.get("job")
    said = about.get("units") if isinstance(about, dict) else None
    return model_in(data, text, file, Job, A_JOB_FILE, "SI" if said == "SI" else "US")


def model_in(data: dict[str, Any], text: str, file: str, root: type[Root], what: str, system: str) -> Root:
    """What plain data means as a table, or JobError with all its mistakes, each at its line of the text.

    `system` is for the examples in messages.
    """
    from pydantic_core import ValidationError

    from lakewright.job.validate import validator_of

    try:
        found: Root = validator_of(root).validate_python(data, context={"units": system})
    except ValidationError as problem:
        from lakewright.job.mistakes import mistakes_of

        raise JobError(mistakes_of(problem, plain_line_ends(text), file, root, what)) from None
    return found


def with_lines(error: JobError, text: str) -> JobError:
    """The same mistakes with their lines, for those found by whoever read the job and not its text.

    Their keys are written as in messages: "[stand.inlet] stock".
    """
    from lakewright.job.layout import Layout

    lines = Layout(plain_line_ends(text)).lines

    def line(key: str) -> int:
        table, _, field = key.partition("]")
        path = (*table.strip("[").split("."), *field.split())
        return next((lines[path[:n]] for n in range(len(path), 0, -1) if path[:n] in lines), 0)

    return JobError([m if m.line else replace(m, line=line(m.key)) for m in error.mistakes])


def plain_line_ends(text: str) -> str:
    """A text without byte-order mark, its lines ending as everywhere here."""
    return text.removeprefix("\ufeff").replace("\r\n", "\n")


def read_toml(text: str, file: str, what: str) -> dict[str, Any]:
    """The plain data of a TOML text, or JobError that says where it is none."""
    if len(text) > BIGGEST:
        raise _too_big(file, what)
    try:
        return toml_data(text)
    except RecursionError:
        raise _unusable(file, "lists or tables nested without end", what, "write each value plainly") from None
    except ValueError as problem:
        raise JobError([_syntax_mistake(problem, text, file)]) from None


@lru_cache(maxsize=4)
def toml_data(text: str) -> dict[str, Any]:
    """The plain data of a TOML text, to be read and not written in: an edit asks for that of the same text again.

    Raises
    ------
    ValueError where it is none, RecursionError where it is nested without end
    """
    return tomllib.loads(text.removeprefix("\ufeff"))


# What tomllib says, what that means in a job file, and what to do. The first that fits is taken.
_SYNTAX = (
    ("Cannot overwrite a value", "each key once in its table", "take out one of the two"),
    ("Cannot declare", "each table once", "put its keys together under one header"),
    ("Cannot mutate immutable namespace", "each table once", "put its keys together under one header"),
    ("Cannot redefine namespace", "each table once", "put its keys together under one header"),
    ("Duplicate inline table key", "each key once in its table", "take out one of the two"),
    ("Invalid value", "a value: text in quotes, a number, true, false, a date or a list",
     'put text and quantities in quotes, as in depth = "12 ft"'),
    ("Expected newline or end of document after a statement", "one key and one value on a line",
     'put text and quantities in quotes, as in depth = "12 ft"'),
    ("Expected '='", "key = value", "put an equals sign between the key and its value"),
    ("Invalid date or datetime", "a date that is in the calendar", "write it as 2026-05-03"),
    ("Invalid initial character for a key part", "a key: letters, digits, - and _",
     "put any other key in quotes"),
    ("Invalid statement", "key = value, [table] or # comment", "start a comment with #"),
    ("Expected ']", "a table's name between [ and ]", "close the header with ] or ]]"),
    ("Unclosed array", "] at the end of a list", "close the list"),
    ("Unclosed inline table", "} at the end of a table on one line", "close the table"),
    ("Unterminated string", "a quote at the end of the text", "close the quotes"),
    ("Illegal character", "text of letters, digits and signs alone", "take it out, or close the quotes"),
    ("Unescaped '\\' in a string", "a backslash written twice", "write \\\\ for it, or use single quotes"),
    ("Found invalid character", "text of letters, digits and signs alone", "take it out"),
    ("Exceeds the limit", "a number of reasonable length", "write the number in fewer digits"),
)  # fmt: skip


def _syntax_mistake(problem: ValueError, text: str, file: str) -> Mistake:
    from lakewright.job.quantity import LONGEST_ECHO, echo

    said = str(problem)
    place = re.search(r"\(at (?:line (\d+), column \d+|end of document)\)", said)
    rows = plain_line_ends(text).split("\n")
    if place is None:
        line = next((number for number, row in enumerate(rows, 1) if re.search(r"\d{4000}", row)), 0)
    elif place[1]:
        line = int(place[1])
    else:
        line = len(rows) - next((back for back, row in enumerate(reversed(rows)) if row.strip()), 0)
    row = rows[line - 1].strip() if line else ""
    found = row if row.isprintable() and len(row) <= LONGEST_ECHO else echo(row)
    found = found or "something that is not TOML"
    for start, wanted, remedy in _SYNTAX:
        if said.startswith(start):
            return Mistake(file, line, "", found, wanted, remedy)
    return Mistake(file, line, "", found, "TOML: key = value", "look at this line and the one before it")


def _nearest_file(path: Path) -> str:
    import difflib

    try:
        near = sorted(each.name for each in path.parent.glob("*.toml"))
    except (OSError, ValueError):
        near = []
    close = difflib.get_close_matches(path.name, near, n=1)
    return f"did you mean {close[0]}?" if close else "check the name and the folder"


def _too_big(file: str, what: str) -> JobError:
    return _unusable(
        file,
        "a file of more than 5 MB",
        what,
        "keep soundings and level records in files of their own",
    )


def _unusable(file: str, found: str, wanted: str, remedy: str) -> JobError:
    return JobError([Mistake(file, 0, "", found, wanted, remedy)])
