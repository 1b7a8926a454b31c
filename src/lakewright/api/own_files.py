"""Files of a job in a folder: made anew where they are its own, and nobody else's written over without being asked."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from pathlib import Path

from lakewright.errors import AskError
from lakewright.job.disk import put_in

MOST_NAMED = 3
"""ours: files named in a refusal; the rest are counted."""


def put_own(folder: Path, files: Mapping[str, bytes], job: Path | None, what: str, over: bool) -> tuple[Path, ...]:
    """Write what was made of a job into a folder, and beside it a record by which it is known again.

    Parameters
    ----------
    folder : made where there is none
    files : by name
    job : the job file; None where it is made of none
    what : what is written, in one word; each kind of a job has its own record
    over : write over whatever stands there

    Returns
    -------
    The files written, without the record

    Raises
    ------
    AskError where one stands there that this job did not make or somebody has changed since, or where they cannot be
        written; nothing is written then
    """
    record = folder / f".{job.stem if job else 'blank'}-{what}.json"
    whose = "" if job is None else str(job.resolve())
    before = _made_before(record, whose)
    others = [name for name, raw in files.items() if not over and _is_foreign(folder / name, raw, before.get(name))]
    if others:
        more = f" and {len(others) - MOST_NAMED} more" if len(others) > MOST_NAMED else ""
        raise AskError(
            f"{folder}: found {', '.join(others[:MOST_NAMED])}{more}, which this job did not make or somebody has "
            "changed since; name another folder with --to, or write over with --over"
        )
    made = before | {name: _mark(raw) for name, raw in files.items()}
    # Indented for whoever opens it; in order, so that the same files give the same record.
    kept = json.dumps({"job": whose, "files": dict(sorted(made.items()))}, ensure_ascii=False, indent=1)
    written = {folder / name: raw for name, raw in files.items()}
    put_in(folder, {**written, record: f"{kept}\n".encode()})
    return tuple(written)


def _made_before(record: Path, whose: str) -> dict[str, str]:
    """What a job made in a folder before, by the mark of each file; nothing where the record is none or another's."""
    try:
        kept = json.loads(record.read_text(encoding="utf-8"))
        return {str(name): str(mark) for name, mark in kept["files"].items()} if kept["job"] == whose else {}
    except (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return {}


def _is_foreign(path: Path, raw: bytes, mark: str | None) -> bool:
    """Whether something stands in a file's place that is neither what is to be written nor what was made before."""
    try:
        there = path.read_bytes()
    except (FileNotFoundError, NotADirectoryError):
        return False
    except OSError:
        return not path.is_dir()  # what stands in the way is told when it is written
    return there != raw and _mark(there) != mark


def _mark(raw: bytes) -> str:
    return hashlib.sha256(raw).hexdigest()
