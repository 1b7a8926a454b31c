"""Every error Lakewright raises on purpose.

LakewrightError
|-- UnitError      a quantity in text that cannot be read, or reads two ways
|-- JobError       a job file that cannot be used: holds every mistake found, not the first
|   `-- WaterError the record of a water that cannot be used (job/read_water.py)
|-- StockError     a part or a row of the stock that cannot be used
`-- AskError       a command asked for something that is not there
    `-- StaleError an edit on a revision after which another was kept
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


class LakewrightError(Exception):
    """The root: catch this to catch all of them."""


class UnitError(LakewrightError, ValueError):
    """A quantity in text that cannot be read.

    The three parts are kept apart so that whoever knows the place can add it.
    """

    def __init__(self, found: str, wanted: str, remedy: str) -> None:
        super().__init__(f"found {found}; wanted {wanted}; {remedy}")
        self.found = found
        self.wanted = wanted
        self.remedy = remedy


@dataclass(frozen=True, order=True)
class Mistake:
    """One thing wrong in a file: where, what was found, what was wanted, what to write."""

    file: str
    line: int
    key: str
    found: str
    wanted: str
    remedy: str

    def __str__(self) -> str:
        place = f"{self.file}, line {self.line}" if self.line else self.file
        where = f"{place}, {self.key}" if self.key else place
        return f"{where}\n    found   {self.found}\n    wanted  {self.wanted}\n    do      {self.remedy}"


class JobError(LakewrightError):
    """A job file that cannot be used. `mistakes` holds all of them, in file order."""

    def __init__(self, mistakes: Sequence[Mistake], file: str = "the job file") -> None:
        self.mistakes = tuple(sorted(mistakes, key=lambda m: (m.file, m.line, m.key)))
        many = len(self.mistakes)
        head = "1 mistake" if many == 1 else f"{many} mistakes"
        super().__init__("\n".join([f"{head} in {file}", *map(str, self.mistakes)]))


class StockError(LakewrightError):
    """A part or a row of the stock that cannot be used.

    The three parts are kept apart so that whoever knows the place can add it.
    """

    def __init__(self, found: str, wanted: str, remedy: str, place: str = "") -> None:
        super().__init__(f"{f'{place}: ' if place else ''}found {found}; wanted {wanted}; {remedy}")
        self.found = found
        self.wanted = wanted
        self.remedy = remedy


class AskError(LakewrightError):
    """A command asked for something that is not there: a check's name, a file, a part."""


class StaleError(AskError):
    """An edit on a revision after which another was kept: nothing is written. `last` is the number of that one."""

    def __init__(self, words: str, last: int) -> None:
        super().__init__(words)
        self.last = last
