"""The door of waters: a file in, its record out, or every mistake in it at once; and a water found by its name."""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from functools import lru_cache
from pathlib import Path

from lakewright.errors import JobError, Mistake
from lakewright.job.layout import lines_of
from lakewright.job.naming import folded
from lakewright.job.quantity import echo
from lakewright.job.read import model_in, plain_line_ends, read_text, read_toml
from lakewright.job.water import Water

A_WATERS_FILE = "a water's file"


class WaterError(JobError):
    """A water's file that cannot be used. `mistakes` holds all of them, in file order."""

    def __init__(self, mistakes: Sequence[Mistake]) -> None:
        super().__init__(mistakes, A_WATERS_FILE)


def read_water(path: Path, system: str = "US") -> Water:
    """The water in a file, or WaterError with all its mistakes. `system` is for the examples in messages."""
    try:
        text = read_text(path, A_WATERS_FILE)
    except JobError as error:
        raise WaterError(error.mistakes) from None
    return read_water_text(text, str(path), system)


@lru_cache(maxsize=16)
def read_water_text(text: str, file: str = "water.toml", system: str = "US") -> Water:
    """The water in a text, or WaterError with all its mistakes. `file` is the name that mistakes give.

    The same text is read once: a water does not change, and the page asks at every key struck.
    """
    try:
        data = read_toml(text, file, A_WATERS_FILE)
        return model_in(data, text, file, Water, A_WATERS_FILE, system)
    except JobError as error:
        raise WaterError(error.mistakes) from None


def water_files(folder: Path) -> list[Path]:
    """The waters' files that lie in a folder itself, by name. A link that leads out of it is not followed."""
    try:
        home = folder.resolve()
        files = sorted(folder.glob("*.toml"))
        return [file for file in files if file.is_file() and file.resolve().parent == home]
    except (OSError, ValueError, RuntimeError):
        return []


def find_water(name: str, folders: Sequence[Path], system: str = "US") -> Water | None:
    """The water of a name, or of a file's name, in the first folder that has it; None where none has.

    Raises
    ------
    WaterError where two waters of a folder answer to the name, or the file of the one cannot be used
    """
    file = find_water_file(name, folders)
    return None if file is None else read_water(file, system)


def find_water_file(name: str, folders: Sequence[Path]) -> Path | None:
    """The file of a water, by its name or the file's own, in the first folder that has it; None where none has.

    The name is only ever compared with what lies in the folders, so it never leads anywhere else.

    Raises
    ------
    WaterError where two waters of a folder answer to the name
    """
    wanted = folded(name)
    for folder in folders if wanted else ():
        near = [(file, said) for file in water_files(folder) if wanted in _answers_to(file, said := _name_in(file))]
        if len(near) > 1:
            raise WaterError(
                [_second(file, said, [other for other, _ in near if other != file]) for file, said in near]
            )
        if near:
            return near[0][0]
    return None


def namesakes(folder: Path) -> dict[Path, Mistake]:
    """The files of a folder that share their water's name with another, and what is wrong with each."""
    said = {file: _name_in(file) for file in water_files(folder)}
    answering: dict[str, list[Path]] = {}
    for file, name in said.items():
        for each in _answers_to(file, name):
            answering.setdefault(each, []).append(file)
    near = {file: answering.get(folded(name or file.stem), []) for file, name in said.items()}
    return {
        file: _second(file, said[file], [other for other in files if other != file])
        for file, files in near.items()
        if len(files) > 1
    }


def _answers_to(file: Path, said: str) -> set[str]:
    return {folded(file.stem), folded(file.name), folded(said)} - {""}


def _name_in(file: Path) -> str:
    """The name a file gives its water; empty where that cannot be read, for then only its own name finds it."""
    try:
        return _name_said(read_text(file))
    except (JobError, ValueError, RecursionError):
        return ""


@lru_cache(maxsize=256)
def _name_said(text: str) -> str:
    """The name in the text of a water's file; the same text is read once."""
    name = tomllib.loads(text.removeprefix("\ufeff")).get("name")
    return name if isinstance(name, str) else ""


def _second(file: Path, said: str, others: Sequence[Path]) -> Mistake:
    also = " and ".join(other.name for other in others)
    line = lines_of(plain_line_ends(read_text(file))).get(("name",), 0) if said else 0
    found = f"the name {echo(said or file.stem)}, to which {also} answers too"
    return Mistake(str(file), line, "name", found, "one record of each water", "put them together, or rename one")
