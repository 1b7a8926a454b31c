"""Which job a page shows: the one that is served, one begun on the page, or an example."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import quote

from lakewright.api.demo import example_path, examples
from lakewright.api.drafts import Book, begun
from lakewright.errors import AskError

NAME = re.compile(r"[a-z0-9][a-z0-9-]{0,59}")
"""What a job begun here may be called: nothing that leaves its folder."""

EXAMPLE = "example:"


@dataclass(frozen=True)
class JobAt:
    """One job of the page.

    name : as the page's address has it, nothing for the one that is served
    file : where it stands or would stand; waters are looked for beside it
    may_write : whether its draft may be written there, where that is asked
    """

    name: str
    file: Path
    may_write: bool

    @property
    def address(self) -> str:
        """Where its page is."""
        return f"/?job={quote(self.name)}" if self.name else "/"


class Jobs:
    """The jobs of one page.

    Parameters
    ----------
    file : the one that is served
    book : where drafts are kept
    may_write : whether drafts may be written to their files, where that is asked; an example's never
    folder : where new ones would stand; beside the one that is served if not said
    """

    def __init__(self, file: Path, book: Book, may_write: bool, folder: Path | None = None) -> None:
        self.served, self.book, self.folder = JobAt("", file, may_write), book, folder or file.parent

    def named(self, name: str) -> JobAt:
        """The job of a name.

        Raises
        ------
        AskError where there is none
        """
        if not name:
            return self.served
        if name.startswith(EXAMPLE) and name.removeprefix(EXAMPLE) in examples():
            return JobAt(name, example_path(name.removeprefix(EXAMPLE)), False)
        if NAME.fullmatch(name) and name in begun(self.book, self.folder):
            return JobAt(name, self.folder / f"{name}.toml", True)
        raise AskError(f"no job called {name!r} was begun here; go to the page without that name, and begin it")

    def under_way(self) -> list[JobAt]:
        """Those begun here, the one that was worked on last first; the one that is served is not among them."""
        names = begun(self.book, self.folder)
        served = self.served.file.resolve()
        here = [self.named(name) for name in names if NAME.fullmatch(name)]
        return [each for each in here if each.file.resolve() != served]
