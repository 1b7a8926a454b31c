"""What suction and delivery lines have in common."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import numpy as np

from lakewright.physics import rating
from lakewright.state.gather import OPEN, Gather, one, why_not
from lakewright.stock.load import Stock
from lakewright.stock.rows import Pipe


def pipe_facts(table: str, line: Any, pipe: Pipe | None, gather: Gather) -> tuple[float, float, float]:
    """Bore and roughness of a line, new and fouled [m]."""
    why = why_not(f"[{table}] stock", line.stock)
    if line.bore is not None and line.stock != OPEN:
        why = f"[{table}] roughness and roughness_fouled are not given, and no stock"

    def one(field: str, given: Any, stocked: float | None) -> float:
        if given is not None:
            return float(given.value)
        return stocked if stocked is not None else gather.lack(f"{table}.{field}", why)

    return (
        one("bore", line.bore, pipe.bore if pipe else None),
        one("roughness", line.roughness, pipe.roughness if pipe else None),
        one("roughness_fouled", line.roughness_fouled, pipe.roughness_fouled if pipe else None),
    )


def held_for_years(pipe: Pipe, wall: float) -> float:
    """Pressure a pipe of the stock may stand at for years, its wall at a temperature [K] [Pa gauge]."""
    at = one(wall)
    if pipe.compound.startswith("PE"):
        share = rating.polyethylene_rating_share(at)
    else:
        # Metal does not mind the sun; soft PVC of hose is taken as rigid, which it follows at best.
        share = rating.pvc_rating_share(at) if "PVC" in pipe.compound else np.ones(1)
    return float(rating.allowed_pressure(one(pipe.rating), share, np.ones(1))[0])


EXIT = 1.0
"""Loss coefficient of a pipe's end in a tank [-]. Source: TP-410, page A-29, all exits (restated)."""


def fittings_of(table: str, line: Any, gather: Gather) -> Mapping[str, int] | None:
    """The fittings of a line by name; nothing where nobody has counted them."""
    given = line.fittings.model_dump() if "fittings" in line.model_fields_set else None
    return gather.usual_fittings(table, given) if line.loss_coefficient is None else given


def coefficient_of(
    table: str, line: Any, pipe: Pipe | None, fittings: Mapping[str, int] | None, stock: Stock, gather: Gather
) -> float:
    """Sum of a line's loss coefficients on its own velocity; the delivery line's with its exit."""
    end = EXIT if table == "delivery" else 0.0
    if line.loss_coefficient is not None:
        return float(line.loss_coefficient.value) + end
    if fittings is None:
        return gather.lack(f"{table}.coefficient", f"[{table}] fittings is not given")
    if pipe is None and line.bore is None:
        return gather.lack(f"{table}.coefficient", why_not(f"[{table}] stock", line.stock))
    size = pipe.size if pipe else _size_of_bore(line.bore.value, stock)
    return stock.loss_coefficient(fittings, size) + end


def _size_of_bore(bore: float, stock: Stock) -> str:
    """Nominal size of the pipe in stock whose bore comes nearest, for fittings of a line given by its bore [m]."""
    pipes = [pipe for pipe in stock.pipes.values() if pipe.size in stock.turbulent_friction]
    return min(pipes, key=lambda pipe: abs(pipe.bore - bore)).size
