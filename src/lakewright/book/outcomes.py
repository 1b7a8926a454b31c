"""A record that is only added to, a line an entry: what was found before it was stopped is there when it goes on."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from contextlib import suppress
from pathlib import Path
from types import TracebackType
from typing import Any

from lakewright.errors import AskError


class Record:
    """A file of entries that is only added to. To be used in a `with`.

    Raises
    ------
    AskError where the file cannot be written
    """

    def __init__(self, file: Path) -> None:
        self.file = file

    def __enter__(self) -> Record:
        try:
            self.file.parent.mkdir(parents=True, exist_ok=True)
            self._stream = self.file.open("ab")
            self._end_torn_line()
        except OSError as error:
            raise AskError(f"{self.file}: {(error.strerror or str(error)).lower()}; name another folder") from None
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        # What could not be written was told when it was added; closing tries it once more.
        with suppress(OSError):
            self._stream.close()

    def _end_torn_line(self) -> None:
        """A line that was cut off in the middle is ended, so that the next begins anew."""
        if self._stream.tell():
            with self.file.open("rb") as stream:
                stream.seek(-1, 2)
                if stream.read(1) != b"\n":
                    self._stream.write(b"\n")

    def add(self, entries: Iterable[Mapping[str, Any]]) -> None:
        """Add some entries, and have them leave this program."""
        lines = "".join(json.dumps(each, ensure_ascii=False) + "\n" for each in entries)
        try:
            self._stream.write(lines.encode("utf-8", "surrogatepass"))
            self._stream.flush()
        except OSError as error:
            reason = (error.strerror or str(error)).lower()
            raise AskError(f"{self.file}: {reason}; what was found before is kept") from None


def recorded(file: Path) -> Iterator[Any]:
    """The entries of a record, none where there is no file; lines that were cut off are passed over."""
    if not file.exists():
        return
    with file.open("rb") as stream:
        for line in stream:
            try:
                yield json.loads(line.decode("utf-8", "surrogatepass"))
            except ValueError:
                continue
