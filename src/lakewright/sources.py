"""The bibliography: where every number that is not ours comes from, and whether anybody looked."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path

STANDINGS = {
    "read": "the passage itself was read, in the edition named or in a copy of it",
    "restated": "another text that was read gives the figure and names this source for it",
    "remembered": "known from memory; no text was at hand",
    "common practice": "what the trade does; nobody in particular said it",
    "ours": "chosen here, with the reason beside the number",
    "given": "comes with the job or the part, from whoever made or owns it",
}
"""What `Source.standing` may be, and what each means."""


@dataclass(frozen=True, slots=True)
class Source:
    """One entry of sources.toml."""

    id: str
    title: str
    publisher: str  # who published or wrote it; empty where there is nobody
    edition: str  # edition or year; empty where there is none
    standing: str  # a key of STANDINGS
    note: str

    def __str__(self) -> str:
        return ", ".join(part for part in (self.title, self.publisher, self.edition) if part)


@cache
def load_sources() -> dict[str, Source]:
    """Every source by its id. The file is read on the first call.

    >>> str(load_sources()["clamond-2009"])
    'Efficient resolution of the Colebrook equation, Clamond, Ind. Eng. Chem. Res. 48, 3665 (2009)'
    """
    # importlib.resources would cost start-up 10 ms more.
    with Path(__file__).with_name("sources.toml").open("rb") as file:
        return {name: Source(id=name, **entry) for name, entry in tomllib.load(file).items()}
