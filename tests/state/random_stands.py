"""Stands drawn from all that may be asked of one. Places are invented; the ranges are ours."""

from __future__ import annotations

import math
import random
from typing import Any

from lakewright.state.placed import Stand
from lakewright.state.stand_built import Asked, built
from lakewright.state.stand_head import Head
from lakewright.stock.load import load_stock
from lakewright.stock.measure import INCH

STOCK = load_stock()
SIZES = ("1", "1-1/4", "1-1/2", "2")
LINES = ("polyethylene, SIDR 9, {} in", "suction hose, {} in", "HDPE, DR 11, {} in")
FORMS = ("upright", "side", "low", "hung", "floating", "box")
BALLAST = (
    "steel angle",
    "steel flat",
    "steel bar",
    "concrete block",
    "concrete",
    "sandbags",
    "sealed capped pipe",
    None,
)


def asked(seed: object, **fixed: Any) -> Asked:
    """What is asked of a stand, drawn; `fixed` takes the place of what is drawn."""
    rng = random.Random(f"stand {seed}")
    size = fixed.pop("size", rng.choice(SIZES))
    form = fixed.pop("form", rng.choice(FORMS[:3] if rng.random() < 0.85 else FORMS))
    attitude = {"upright": "up", "side": "side", "low": "side"}.get(form, "down")
    valve = STOCK.foot_valve(f"foot valve, spring, {rng.choice((size, *SIZES))} in") if size in SIZES else None
    screen = STOCK.screens.get(rng.choice(["", *STOCK.screens]))
    riser = rng.uniform(6.0, 48.0) * INCH
    given = {
        "form": form,
        "head": Head(None if rng.random() < 0.1 else valve, screen, attitude),
        "size": size,
        "legs": rng.randint(3, 6) if form in FORMS[:3] else 0,
        "reach": rng.uniform(0.25, 0.9),
        "wet": rng.random() < 0.5,
        "riser": riser,
        "lowest": form == "low" and rng.random() < 0.5,
        "depth": rng.choice([math.nan, rng.uniform(1.5, 6.0)]),
        "pipe": STOCK.pipe(rng.choice(LINES).format(size)) if size in SIZES else None,
        "pads": rng.choice([0.0, 0.0, 0.3, 0.45]),
        "ballast": rng.choice(BALLAST),
        "ballast_mass": rng.choice([0.0, rng.uniform(2.0, 25.0)]),
        "pins": rng.choice([0, 4]),
        "tether": rng.choice([0.0, 30.0]),
        **fixed,
    }  # fmt: skip
    return Asked(**given)


def stand(seed: object, **fixed: Any) -> Stand:
    """A stand, drawn."""
    return built(asked(seed, **fixed), STOCK)
