"""Files on the disk: put there whole or not at all, and looked for nowhere but where they belong."""

from __future__ import annotations

import contextlib
import os
import tempfile
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path

from lakewright.errors import AskError


def beside(folder: Path, name: str) -> Path | None:
    """The file of that name in a folder itself; None where there is none, or where name or link leads elsewhere."""
    path = folder / name
    try:
        is_there = Path(name).name == name and path.is_file() and path.resolve().parent == folder.resolve()
    except (OSError, ValueError, RuntimeError):  # a name too long, with a NUL in it, or a link that goes round
        return None
    return path if is_there else None


def put(files: Mapping[Path, bytes]) -> None:
    """Write some files: all beside their places first, then each into its place.

    Where there is no room for all of them, those that were there are as they were.

    Raises
    ------
    AskError where a folder stands in a file's place, OSError where they cannot be written
    """
    targets = {Path(os.path.realpath(path)): raw for path, raw in files.items()}
    for path in files:
        if path.is_dir():
            raise AskError(f"{path} is a folder; name the file inside it")
    with in_place_of(targets) as parts:
        for target, raw in targets.items():
            with parts[target].open("wb") as stream:
                stream.write(raw)
                stream.flush()
                os.fsync(stream.fileno())
            os.chmod(parts[target], _mode_for(target))


@contextlib.contextmanager
def in_place_of(targets: Iterable[Path]) -> Iterator[Mapping[Path, Path]]:
    """A file beside each place, to be filled, and at the end each in its place.

    Where that does not come to its end, what stood in the places is as it was, and nothing is left beside them.

    Raises
    ------
    OSError where they cannot be written
    """
    made: dict[Path, Path] = {}
    try:
        for target in targets:
            handle, name = tempfile.mkstemp(prefix=f".{target.name[:40]}.", suffix=".part", dir=target.parent)
            made[target] = Path(name)
            os.close(handle)
        yield made
        for target, part in made.items():
            os.replace(part, target)
    except BaseException:
        for part in made.values():
            with contextlib.suppress(OSError):
                part.unlink()
        raise
    for folder in {target.parent for target in made}:
        _settle(folder)


def put_in(folder: Path, files: Mapping[Path, bytes]) -> None:
    """Write some files into a folder, which is made where there is none: all of them, or none.

    Raises
    ------
    AskError where they cannot be written there
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
        put(files)
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise AskError(f"{folder}: {reason}; name another folder with --to, where there is room to write") from None


def _mode_for(target: Path) -> int:
    """The mode the file has, or the one a new file would get."""
    with contextlib.suppress(OSError):
        return target.stat().st_mode & 0o7777
    mask = os.umask(0)
    os.umask(mask)
    return 0o666 & ~mask


def _settle(folder: Path) -> None:
    """Ask that the new names in the folder itself reach the disk; not every system can."""
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
