"""Drinking water written a second time, in scalars, from `formulas.md` alone: sections D1 to D4."""

from __future__ import annotations

import math
from collections.abc import Mapping

import numpy as np
import pytest

from lakewright.state.drinking import barriers, drinking
from tests.made import random_batch, rows_of_facts

pytestmark = pytest.mark.law

ROWS = 300
MG_MIN = 0.06

VIRUSES = {2: (6, 4, 3, 2, 1, 1), 3: (9, 6, 4, 3, 2, 1), 4: (12, 8, 6, 4, 3, 2)}
COLUMNS = (0.5, 5, 10, 15, 20, 25)
LOGS = (0.5, 1, 1.5, 2, 2.5, 3, 3.5, 4)
DOSES = {
    "crypto": (1.6, 2.5, 3.9, 5.8, 8.5, 12, 15, 22),
    "giardia": (1.5, 2.1, 3.0, 5.2, 7.7, 11, 15, 22),
    "virus": (39, 58, 79, 100, 121, 143, 163, 186),
}


def giardia_ct(celsius: float, ph: float, milligrams: float, log: float) -> float:
    t, c, p = min(max(celsius, 0.5), 25.0), max(milligrams, 0.4), max(ph, 6.0)
    if t < 12.5:
        return 0.353 * log * (12.006 + math.exp(2.46 - 0.073 * t + 0.125 * c + 0.389 * p))
    return 0.361 * log * (-2.261 + math.exp(2.69 - 0.065 * t + 0.111 * c + 0.361 * p))


def column(celsius: float) -> int:
    return max([n for n, warm in enumerate(COLUMNS) if warm <= celsius], default=0)


def virus_ct(celsius: float, log: float) -> float:
    return 0.0 if log <= 0 else VIRUSES[min(row for row in VIRUSES if row >= log)][column(celsius)]


def light(given: Mapping[str, float], germ: str) -> float:
    counts = (
        given["lamp_dose"] >= 400
        and given["flow"] <= given["lamp_flow"]
        and given["transmittance"] >= given["lamp_transmittance"]
        and given["prefilter"] <= 5e-6 * (1 + 1e-9)
        and given["turbidity"] <= 5
    )
    if not (given["lamp"] and counts):
        return 0.0
    reached = [log for log, dose in zip(LOGS, DOSES[germ], strict=True) if 10 * dose <= given["lamp_dose"]]
    return min(max(reached, default=0.0), 3.0)


def held_back(given: Mapping[str, float], days: list[float]) -> list[float]:
    """Log reductions of Giardia, Cryptosporidium and viruses on the worst day."""
    worst = []
    for day in days:
        warm = min(day, given["coldest"]) - 273.15
        ct = given["residual"] * given["baffling"] * given["contact_volume"] / given["flow"] / MG_MIN
        giardia = min(3.0, 3.0 * ct / giardia_ct(warm, given["ph"], 1000 * given["residual"], 3.0))
        viruses = max([log for log, row in VIRUSES.items() if row[column(warm)] <= ct], default=0)
        counts = bool(given["chlorine"]) and given["turbidity"] <= 5
        worst.append((giardia * counts, 0.0, viruses * counts))
    chlorine = [min(day[germ] for day in worst) for germ in range(3)]
    filters = [given["filter_giardia"], given["filter_cryptosporidium"], given["filter_virus"]]
    lamp = [light(given, germ) for germ in ("giardia", "crypto", "virus")]
    return [sum(each) for each in zip(filters, lamp, chlorine, strict=True)]


def time_needed(given: Mapping[str, float], day: float) -> float:
    if not given["chlorine"]:
        return 0.0
    warm, milligrams = min(day, given["coldest"]) - 273.15, 1000 * given["residual"]
    giardia = max(3.0 - given["filter_giardia"] - light(given, "giardia"), 0.0)
    viruses = max(4.0 - given["filter_virus"] - light(given, "virus"), 0.0)
    ct = max(giardia_ct(warm, given["ph"], milligrams, giardia), virus_ct(warm, viruses))
    return 60.0 * ct / milligrams


def viscosity(kelvin: float) -> float:
    t = kelvin / 300.0
    return 280.68 * t**-1.9 + 511.45 * t**-7.7 + 61.131 * t**-19.6 + 0.45903 * t**-40.0


def test_barriers_and_times_are_the_same_twice() -> None:
    batch = random_batch(71, ROWS, "centrifugal", days=3)
    together, walked = barriers(batch), drinking(batch)
    counted = 0
    for row in range(ROWS):
        one = rows_of_facts(batch, row)
        given = {name: float(value[0]) for name, value in vars(one.drinking).items()}
        days = one.days.temperature.tolist()
        assert together.held_back[row].tolist() == pytest.approx(held_back(given, days), rel=1e-9, abs=1e-12)
        needed = [time_needed(given, day) for day in days]
        assert np.broadcast_to(walked.time_needed[row], (3,)).tolist() == pytest.approx(needed, rel=1e-9)
        ratio = [viscosity(day) / viscosity(293.15) for day in days]
        clean = [given["flow"] * (given["viscous"] * each + given["turbulent"] * given["flow"]) for each in ratio]
        room = [float(one.delivery.filters_dirty[0]) - each for each in clean]
        assert walked.room[row].tolist() == pytest.approx(room, rel=1e-9, abs=1e-6)
        if given["turbidity"] > 0 and math.isfinite(given["dirt"]):
            days_of_run = given["dirt"] / (given["turbidity"] * 2e-3) / given["per_day"]
            assert float(walked.run[row, 0]) == pytest.approx(days_of_run)
        counted += sum(1 for log in together.held_back[row] if log >= 3.0)
    # ours: enough of them hold back enough for the lamp and the tank to have had their say.
    assert counted > 100
