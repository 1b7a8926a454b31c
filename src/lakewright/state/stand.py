"""The intake stand of a job as its members: every part of it from the stock, where it stands."""

from __future__ import annotations

from lakewright.state.placed import At, Mouth, Placed, Stand, footprint_of, parts_of

__all__ = ["At", "Mouth", "Placed", "Stand", "footprint_of", "parts_of"]
