"""Facts straight from numbers: the dictionaries of `benchmarks/plain.py` turned into what the walk reads."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from lakewright.physics.curve import rows_of, shape_keeping, stack, straight_lines, unknown_curve
from lakewright.physics.jet import jet_table, stack_tables, tables_of, unknown_table
from lakewright.state.facts import (
    DayFacts,
    DeliveryFacts,
    Facts,
    FaultFacts,
    NeedFacts,
    PumpFacts,
    SiteFacts,
    StandFacts,
    SuctionFacts,
)
from lakewright.state.limits import standard_limits

Numbers = dict[str, dict[str, Any]]


def facts_of_numbers(job: Numbers) -> Facts:
    """One job's facts."""
    one = {
        table: {name: np.atleast_1d(np.array(value, dtype=float)) for name, value in rows.items() if name != "kind"}
        for table, rows in job.items()
        if table != "pump"
    }
    pump = job["pump"]
    if pump["kind"] == "jet":
        table = jet_table(pump["lifts"], pump["pressures"], pump["flows"])
        facts = PumpFacts(
            np.array([pump["height"]]),
            unknown_curve(),
            unknown_curve(),
            np.array([np.nan]),
            table,
            np.array([60.0]),
        )
    else:
        facts = PumpFacts(
            np.array([pump["height"]]),
            shape_keeping(pump["flow"], pump["head"]),
            straight_lines(pump["required_flow"], pump["required"]),
            np.array([-np.max(np.diff(pump["head"]))]),
            unknown_table(),
            np.array([60.0]),
        )
    extra = {"cover_floor": 0.61, "bed_wanted": 0.3, "screen_velocity": 0.061, "screen_on_open": 0.0}
    site = {**{name: np.array([value]) for name, value in extra.items()}, **one["site"]}
    return Facts(
        SiteFacts(**site),
        DayFacts(**one["days"]),
        StandFacts(**one["stand"]),
        SuctionFacts(**one["suction"]),
        facts,
        DeliveryFacts(**one["delivery"]),
        NeedFacts(**one["need"]),
        FaultFacts(**one["faults"]),
        standard_limits(),
        pump["kind"],
        tuple(f"day {n}" for n in range(len(job["days"]["level"]))),
    )


def batch_of_numbers(jobs: Sequence[Numbers]) -> Facts:
    """Many jobs of one kind of pump and one number of days as one batch, the job on the leading axis."""
    return batch_of([facts_of_numbers(job) for job in jobs])


def batch_of(singles: Sequence[Facts]) -> Facts:
    """Many jobs' facts as one batch."""
    first = singles[0]

    def table(name: str) -> Any:
        kind = type(getattr(first, name))
        return kind(
            **{
                field: np.stack([getattr(getattr(f, name), field) for f in singles])
                for field in kind.__dataclass_fields__
            }
        )

    every = np.arange(len(singles))
    pump = PumpFacts(
        np.stack([f.pump.height for f in singles]),
        rows_of(stack([f.pump.curve for f in singles]), every),
        rows_of(stack([f.pump.required for f in singles]), every),
        np.stack([f.pump.fall for f in singles]),
        tables_of(stack_tables([f.pump.jet for f in singles]), every),
        np.stack([f.pump.minimum_run for f in singles]),
    )
    names = ("site", "days", "stand", "suction", "delivery", "need", "faults")
    tables = {name: table(name) for name in names}
    return Facts(**tables, pump=pump, limits=first.limits, pump_kind=first.pump_kind, day_names=first.day_names)
