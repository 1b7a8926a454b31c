"""What sheets say, and where each word of it comes from: the report and the job by a path, or our own fixed texts."""

from __future__ import annotations

import datetime
import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from importlib import resources
from typing import Any

from lakewright import units
from lakewright.documents import ink

AS_TYPED = ("job", "stated")
"""Sources whose words a person typed: they print as they are, with no minus or space of ours put in."""


@dataclass(frozen=True, slots=True)
class Words:
    """Words that may be printed.

    text: as they are printed; path: where they come from, a source and a place in it, or `fixed` and their name;
    look: nothing, `bold`, `soft`, or the word of a status
    """

    text: str
    path: str
    look: str = ""


@dataclass(frozen=True)
class Sayer:
    """Gives words to the sheets, and keeps by name what they may speak of.

    system: "US" or "SI"; sources: the report, the job and what else has figures, by the first name of a path
    """

    system: str
    sources: Mapping[str, Any]

    def __call__(self, path: str, kind: str = "", plus: str = "") -> Words:
        """What stands at a path, as words.

        Parameters
        ----------
        path : a source and the way through it: attributes, keys, places in a list, or the name of a named thing
        kind : how a number is shown
        plus : fixed words to follow at once, a full stop or a bracket

        Raises
        ------
        KeyError where nothing stands there
        """
        return Words(f"{self._shown(path, kind)}{plus}", path)

    def value(self, path: str) -> Any:
        """What stands at a path, for a sheet to choose its words by; not to be printed."""
        name, *steps = path.split(".")
        found = self.sources[name]
        for step in steps:
            found = _within(found, step, path)
        return found

    def has(self, path: str) -> bool:
        """Whether anything stands at a path."""
        try:
            return self.value(path) not in (None, "", ())
        except KeyError:
            return False

    def _shown(self, path: str, kind: str) -> str:
        value = self.value(path)
        if isinstance(value, int) and not kind and not isinstance(value, bool):
            return str(value)
        if kind:
            return ink.typeset(units.show(float(value), kind, self.system))
        if isinstance(value, datetime.date):
            return value.isoformat()
        if isinstance(value, bool) or not isinstance(value, str | int):
            raise TypeError(f"{path} is not words: {value!r}; say how it is shown")
        text = str(value)
        if path == "report.first_line":
            text = ink.kept_together(text)
        return text if path.startswith(AS_TYPED) or path == "report.title" else ink.typeset(text)


def _within(found: Any, step: str, path: str) -> Any:
    """One step into a thing."""
    if isinstance(found, Mapping):
        return found[step]
    if isinstance(found, Sequence) and not isinstance(found, str):
        if step.isdigit():
            if int(step) < len(found):
                return found[int(step)]
            raise KeyError(path)
        named = [each for each in found if getattr(each, "name", getattr(each, "title", None)) == step]
        if not named:
            raise KeyError(path)
        return named[0]
    if not hasattr(found, step):
        raise KeyError(path)
    return getattr(found, step)


@cache
def fixed_texts() -> Mapping[str, str]:
    """Every fixed text of the sheets by its name, as `sheet.name`."""
    text = resources.files("lakewright.documents").joinpath("fixed.toml").read_text(encoding="utf-8")
    return {f"{sheet}.{name}": words for sheet, rows in tomllib.loads(text).items() for name, words in rows.items()}


def fixed(name: str) -> Words:
    """A fixed text by its name.

    >>> fixed("common.cautions").text
    'Cautions'
    """
    return Words(ink.typeset(fixed_texts()[name]), f"fixed.{name}")


def fixed_rows(sheet: str, start: str) -> list[Words]:
    """The fixed texts of a sheet whose names begin alike, in the order they are written."""
    return [fixed(name) for name in fixed_texts() if name.startswith(f"{sheet}.{start}")]


def filled(name: str, *said: Words) -> list[Words]:
    """A fixed text with what is said in its gaps, each written `{}`."""
    parts = fixed_texts()[name].split("{}")
    if len(parts) != len(said) + 1:
        raise ValueError(f"{name} has {len(parts) - 1} gaps for {len(said)} words")
    runs = [Words(ink.typeset(parts[0]), f"fixed.{name}")]
    for each, part in zip(said, parts[1:], strict=True):
        runs += [each, Words(ink.typeset(part), f"fixed.{name}")]
    return [run for run in runs if run.text]


def bold(words: Words) -> Words:
    """The same in bold."""
    return replace(words, look="bold")


def soft(words: Words) -> Words:
    """The same in the softer ink."""
    return replace(words, look="soft")


def named(finding: str) -> Words:
    """The name of a check as a sentence begins."""
    words = finding.replace("_", " ")
    return Words(words[:1].upper() + words[1:], f"check.{finding}")


def status(word: str) -> Words:
    """The word of a status, in its colour; its shape stands beside it."""
    return Words(word, f"status.{word}", f"status-{word.replace(' ', '-')}")
