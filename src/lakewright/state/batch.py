"""Batches of pumps: curves and tables of many, one row each."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from lakewright.physics.curve import Curve, rows_of, stack
from lakewright.physics.jet import JetTable, stack_tables, tables_of


def pumps_of(pumps: Sequence[Mapping[str, Any]], index: NDArray[np.intp]) -> dict[str, Any]:
    """The facts of a batch whose rows have the pumps named by `index`, all of one kind and so with the same facts.

    Jet tables of a batch have one shape.
    """
    used, where = np.unique(index, return_inverse=True)
    few = [pumps[n] for n in used]
    return {name: _rows([pump[name] for pump in few], where) for name in few[0]}


def _rows(values: Sequence[Any], where: NDArray[np.intp]) -> Any:
    if isinstance(values[0], Curve):
        return rows_of(stack(values), where)
    if isinstance(values[0], JetTable):
        return tables_of(stack_tables(values), where)
    return np.stack(values)[where]
