"""A job with all that belongs to it in one JSON text, from which it is opened again: files, facts, report."""

from __future__ import annotations

import base64
import binascii
import json
import math
from collections.abc import Mapping
from dataclasses import fields
from pathlib import PurePosixPath
from typing import Any

from lakewright.documents.paper import fingerprint
from lakewright.errors import AskError
from lakewright.physics.curve import Curve
from lakewright.physics.jet import JetTable
from lakewright.report import Report
from lakewright.state.assemble import Assembly
from lakewright.state.facts import every_fact

FORM = 1
"""Of this JSON: another number where a reader of this one would go wrong."""
WATERS = "waters"
"""The folder beside a job where records of waters lie."""


def everything(job: str, files: Mapping[str, bytes], report: Report, assembly: Assembly) -> bytes:
    """The JSON of a job.

    Parameters
    ----------
    job : the name of its file
    files : by name, from the job's own folder: the job, its water's record, soundings, record of levels
    report, assembly : of the job
    """
    said = {
        "lakewright": FORM,
        "version": report.version,
        "fingerprint": fingerprint(report),
        "job": job,
        "files": {name: _text(content) for name, content in files.items()},
        "facts": {name: _fact(name, assembly) for name in every_fact()},
        "parts": assembly.parts,
        "report": report.as_json(),
    }
    return f"{json.dumps(said, ensure_ascii=False, allow_nan=False, indent=1)}\n".encode()


def _text(content: bytes) -> str | dict[str, str]:
    """A file as it stands; one that is no text in base64."""
    try:
        return content.decode("utf-8")
    except UnicodeDecodeError:
        return {"base64": base64.b64encode(content).decode("ascii")}


def _fact(name: str, assembly: Assembly) -> dict[str, Any]:
    """A fact in SI, with its standing, and why it is missing where it is."""
    value = assembly.facts.value(name)
    if isinstance(value, Curve | JetTable):
        shown: Any = {field.name: _numbers(getattr(value, field.name).tolist()) for field in fields(value)}
    else:
        shown = _numbers(value.tolist())
    standing, missing = assembly.standings.get(name), assembly.missing.get(name)
    return {"value": shown, "standing": standing, **({"missing": missing} if missing else {})}


def _numbers(value: Any) -> Any:
    """Numbers without those that JSON does not have: nothing for what nobody knows, a word for no limit."""
    if isinstance(value, list):
        return [_numbers(each) for each in value]
    if math.isnan(value):
        return None
    if math.isinf(value):
        return "no limit" if value > 0.0 else "no lower limit"
    return value


def files_in(text: str, name: str) -> tuple[str, dict[str, bytes]]:
    """The name of the job file in such a JSON, and all its files by name.

    Raises
    ------
    AskError where it is none, or a file in it would not lie beside the job. `name` is what messages call it.
    """
    try:
        said = json.loads(text)
        form, job, files = said["lakewright"], said["job"], said["files"]
        found = {str(file): _bytes(content) for file, content in files.items()}
    except (ValueError, LookupError, TypeError, AttributeError, RecursionError, binascii.Error):
        raise AskError(f"{name} is no job with all that belongs to it; packet --also everything writes one") from None
    if form != FORM:
        raise AskError(f"{name} is written in form {form}, and this version reads form {FORM}; open it with its own")
    if job not in found or any(not _lies_beside(file) for file in found):
        raise AskError(f"{name} names files that do not lie beside its job; have it written anew by packet")
    return job, found


def _bytes(content: Any) -> bytes:
    if isinstance(content, str):
        return content.encode("utf-8")
    return base64.b64decode(content["base64"], validate=True)


def _lies_beside(name: str) -> bool:
    """Whether a name is one in the job's folder, or in that of its waters.

    >>> [_lies_beside(name) for name in ("a.toml", "waters/b.toml", "../a", "/a", "waters/../a", "")]
    [True, True, False, False, False, False]
    """
    parts = PurePosixPath(name).parts
    *folder, last = parts or ("",)
    plain = last not in ("", ".", "..") and not any(mark in name for mark in "\\:\0")
    return plain and name == "/".join(parts) and folder in ([], [WATERS])
