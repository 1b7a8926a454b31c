"""Where one part meets another, and which meet.

A port has a size, a series and a kind. Two ports meet when their kinds are made for each other and size and
series are the same: an insert for polyethylene made to its bore is no hose shank, and pipe made to its outside
takes neither.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

PORT_KINDS = (
    "thread in",
    "thread out",
    "barb",
    "hose",
    "socket",
    "compression",
    "fuse",
    "union",
    "plain end",
)

SERIES = {
    "thread in": ("NPT", "GHT"),
    "thread out": ("NPT", "GHT"),
    "barb": ("SIDR",),
    "hose": ("hose bore", "lay-flat bore"),
    "socket": ("IPS PVC", "CTS copper"),
    "compression": ("IPS HDPE", "CTS"),
    "fuse": ("IPS HDPE",),
    "union": ("union",),
    "plain end": ("SIDR", "IPS HDPE", "IPS PVC", "CTS", "CTS copper", "hose bore", "lay-flat bore"),
}
"""What each kind of port is made to: GHT is the garden hose's thread, SIDR pipe made to its bore."""

_MEETS = {
    "thread in": "thread out",
    "thread out": "thread in",
    "barb": "plain end",
    "hose": "plain end",
    "socket": "plain end",
    "compression": "plain end",
    "fuse": "plain end",
    "union": "union",
}


@dataclass(frozen=True, slots=True, order=True)
class Port:
    """One end of a part: nominal size, what it is made to, and how it takes hold."""

    size: str
    series: str
    kind: str

    def __str__(self) -> str:
        return f"{self.kind} {self.size} {self.series}"


def meets(one: Port, other: Port) -> bool:
    """Whether two ports join with nothing between them.

    >>> shank, pipe = Port("1-1/4", "hose bore", "hose"), Port("1-1/4", "SIDR", "plain end")
    >>> meets(Port("1-1/4", "SIDR", "barb"), pipe), meets(shank, pipe)
    (True, False)
    """
    made_for = _MEETS.get(one.kind) == other.kind or _MEETS.get(other.kind) == one.kind
    return made_for and (one.size, one.series) == (other.size, other.series)


PIPE_ENDS: Mapping[str, tuple[str, str]] = {
    "polyethylene": ("SIDR", "plain end"),
    "HDPE": ("IPS HDPE", "plain end"),
    "CTS tubing": ("CTS", "plain end"),
    "PVC": ("IPS PVC", "plain end"),
    "copper": ("CTS copper", "plain end"),
    "galvanized steel": ("NPT", "thread out"),
    "suction hose": ("hose bore", "plain end"),
    "lay-flat": ("lay-flat bore", "plain end"),
}
"""How the ends of each family of pipe come: series and kind. A family a shop adds takes one of these."""
