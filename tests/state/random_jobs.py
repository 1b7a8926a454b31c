"""Jobs drawn from all that is in stock, written as a job file. Places are invented; the ranges are ours."""

from __future__ import annotations

import random
from typing import Any

from lakewright.job.models import Job
from lakewright.job.read import read_job_text
from lakewright.stock.load import load_stock

STOCK = load_stock()
LADDER = ("1/2", "3/4", "1", "1-1/4", "1-1/2", "2", "2-1/2", "3")
ARRANGEMENTS = ("foot valve only", "foot valve and check at pump", "check at pump only", "flooded")
TREATMENT = tuple(part.name for part in STOCK.parts.values() if part.kind in ("sediment filter", "ultraviolet"))


def drawn_job(seed: str, **fixed: Any) -> Job:
    """A job with every part named, drawn from the stock; `fixed` takes the place of what is drawn."""
    return read_job_text(drawn_text(seed, **fixed))


def drawn_text(seed: str, **fixed: Any) -> str:
    rng = random.Random(f"bill {seed}")
    lines = [pipe for pipe in STOCK.pipes.values() if pipe.size in LADDER]
    suction = rng.choice([pipe for pipe in lines if pipe.family != "lay-flat"])
    near = LADDER.index(suction.size)
    valves = [v for v in STOCK.foot_valves.values() if abs(LADDER.index(v.size) - near) <= 1]
    given = {
        "suction": suction.name,
        "delivery": rng.choice(lines).name,
        "valve": rng.choice(valves).name,
        "screen": rng.choice(["none", *STOCK.screens]),
        "pump": rng.choice([*STOCK.pumps, *STOCK.jets]),
        "tank": rng.choice([*STOCK.tanks]),
        "legs": rng.randint(3, 6),
        "wet": rng.choice(["wet", "dry"]),
        "form": rng.choice(["upright", "side", "low", "hung"]),
        "attitude": rng.choice(["up", "side", "down"]),
        "arrangement": rng.choice(ARRANGEMENTS),
        "riser": f"{rng.uniform(0.1, 1.2):.3f} m",
        "reach": f"{rng.uniform(0.15, 0.9):.3f} m",
        "at": rng.uniform(3.0, 90.0),
        "distance": rng.uniform(1.0, 25.0),
        "delivery_length": f"{rng.uniform(4.0, 260.0):.2f} m",
        "low": rng.uniform(-3.0, 0.0),
        "switch": rng.choice([("20 psi", "40 psi"), ("30 psi", "50 psi"), ("40 psi", "60 psi")]),
        "control": rng.choice(["", "3 gpm", "8 gpm", "20 gpm"]),
        "steps": rng.sample(TREATMENT, rng.randint(0, 3)),
        "level": rng.choice(["counter", "trade", "web"]),
        "raw": rng.randint(0, 2),
        "more": "",
        **fixed,
    }
    if given["form"] == "hung":
        given["legs"] = 0
    return _text(given)


def _text(given: dict[str, Any]) -> str:
    control = f'flow_control = "{given["control"]}"' if given["control"] else ""
    steps = "".join(f'\n[[treatment.steps]]\nstock = "{name}"' for name in given["steps"])
    branches = "".join(
        f'\n[[need.branches]]\nname = "lawn {n}"\nwater = "raw"\nflow = "2 gpm"' for n in range(given["raw"])
    )
    depth = given["at"] * 0.2
    return f"""
[job]
grade = "build"
[site.levels]
low = "{given["low"]:.3f} m"
[[site.soundings]]
distance = "0 m"
depth = "0 m"
[[site.soundings]]
distance = "{given["at"] + 1.0:.3f} m"
depth = "{depth + 4.0:.3f} m"
[need]
flow = "6 gpm"
{branches}
[stand]
form = "{given["form"]}"
at = "{given["at"]:.3f} m"
riser = "{given["riser"]}"
legs = {given["legs"]}
wet = "{given["wet"]}"
reach = "{given["reach"]}"
[stand.inlet]
kind = "foot valve"
stock = "{given["valve"]}"
attitude = "{given["attitude"]}"
screen = "{given["screen"]}"
[suction]
stock = "{given["suction"]}"
along = "4 %"
[pump]
stock = "{given["pump"]}"
distance = "{given["distance"]:.3f} m"
height = "1.5 m"
[delivery]
stock = "{given["delivery"]}"
length = "{given["delivery_length"]}"
height = "5 m"
tank = "{given["tank"]}"
cut_in = "{given["switch"][0]}"
cut_out = "{given["switch"][1]}"
{control}
[holding]
arrangement = "{given["arrangement"]}"
{steps}
[price]
level = "{given["level"]}"
{given["more"]}
"""
