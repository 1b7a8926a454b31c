"""The lists of cases a design is judged in. The last axis of every array is one of them."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

Index = NDArray[np.intp]

LINES = ("line clean", "line fouled")
ENDS = ("pump at cut-in", "pump at cut-out", "tank open")
HELD_ENDS = ("pump at the controller's pressure", "pump at the controller's pressure", "tank open")
STORE_ENDS = ("pump filling the store", "pump filling the store", "pump filling the store")
WEATHERS = ("calm", "current", "storm by the shore manual", "storm as measured on a lake", "boat wake")
TARGETS = ("Giardia", "Cryptosporidium", "viruses")
CUT_IN, CUT_OUT, OPEN = 0, 1, 2
CLEAN, FOULED = 0, 1
CALM, CURRENT, WAKE = 0, 1, 4


@dataclass(frozen=True)
class Cases:
    """For each list, which day each case belongs to and what is special about it.

    * running: day, then line clean or fouled, then pump at cut-in, cut-out, or tank open
    * standing: one a day, pump stopped
    * weather: day, then calm, current, a storm by each of two laws of waves, a boat's wake; no waves under ice
    * targets: no day, but the germs that a treatment is to hold back, each on its worst day
    * filling: one a day, line clean, pump running from cut-in to cut-out; the shortest runs of the running list
    """

    days: int
    running_day: Index
    running_line: Index
    running_end: Index
    standing_day: Index
    weather_day: Index
    weather_kind: Index

    @property
    def filling_day(self) -> Index:
        """The filling list has the days of the standing list."""
        return self.standing_day


@cache
def cases_of(days: int) -> Cases:
    """The lists for so many days.

    >>> cases_of(2).running_day.tolist()
    [0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 1, 1]
    """
    day, line, end = np.indices((days, len(LINES), len(ENDS))).reshape(3, -1)
    weather_day, weather_kind = np.indices((days, len(WEATHERS))).reshape(2, -1)
    return Cases(days, day, line, end, np.arange(days), weather_day, weather_kind)


def case_names(list_name: str, day_names: tuple[str, ...], ends: tuple[str, ...] = ENDS) -> list[str]:
    """What each case of a list is called; `ends` are the words for the ends of the pump's run.

    >>> case_names("running", ("May",))[0]
    'May, line clean, pump at cut-in'
    """
    cases = cases_of(len(day_names))
    if list_name == "running":
        every = zip(cases.running_day, cases.running_line, cases.running_end, strict=True)
        return [f"{day_names[d]}, {LINES[n]}, {ends[e]}" for d, n, e in every]
    if list_name == "targets":
        return list(TARGETS)
    if list_name == "weather":
        return [f"{day_names[d]}, {WEATHERS[k]}" for d, k in zip(cases.weather_day, cases.weather_kind, strict=True)]
    return list(day_names)
