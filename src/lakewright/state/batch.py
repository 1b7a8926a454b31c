"""Batches of pumps: curves and tables of many, one row each."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from lakewright.physics.curve import rows_of, stack
from lakewright.physics.jet import stack_tables, tables_of
from lakewright.state.facts import PumpFacts


def pumps_of(pumps: Sequence[PumpFacts], index: NDArray[np.intp], kind: str) -> dict[str, Any]:
    """The pump facts of a batch whose rows have the pumps named by `index`, all of one kind.

    The height is left out: it belongs to the place. Jet tables of a batch have one shape.
    """
    used, where = np.unique(index, return_inverse=True)
    few = [pumps[n] for n in used]
    columns: dict[str, Any] = {
        "pump.fall": np.stack([p.fall for p in few])[where],
        "pump.minimum_run": np.stack([p.minimum_run for p in few])[where],
    }
    if kind == "jet":
        columns["pump.jet"] = tables_of(stack_tables([p.jet for p in few]), where)
    else:
        columns["pump.curve"] = rows_of(stack([p.curve for p in few]), where)
        columns["pump.required"] = rows_of(stack([p.required for p in few]), where)
    return columns
