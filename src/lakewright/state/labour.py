"""The hours of a job, task by task."""

from __future__ import annotations

import math
import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from importlib import resources
from typing import Any

from lakewright import units
from lakewright.state.works import Works

HOUR = 3600.0
"""Seconds [s]."""

STEP = Fraction(1, 2)
"""Hours are counted by the half, the last begun counted whole. ours: it prints to the place it is counted to."""

DUST = 1.0e-6
"""Hours by which a unit's factor may leave a whole number of steps too high. ours: under a hundredth of a second."""


@dataclass(frozen=True, slots=True)
class Task:
    """One row of `tasks.toml`; times in seconds, of the whole crew."""

    name: str
    what: str
    when: str  # the quantity of works without which there is no such task
    base: float
    each: Mapping[str, float]
    crew: int
    where: str  # "bench" or "site"
    needs: str  # "boat", "digger" or ""
    in_water: bool


@dataclass(frozen=True, slots=True)
class Stint:
    """One task of a job: how long it takes, and how many people."""

    task: Task
    hours: Fraction | None  # None where nobody knows how much there is to do
    people: int


@cache
def tasks() -> tuple[Task, ...]:
    """The rows of `tasks.toml`, in file order."""
    text = resources.files("lakewright.job").joinpath("tasks.toml").read_text(encoding="utf-8")
    return tuple(_task(name, row) for name, row in tomllib.loads(text).items())


def _task(name: str, row: Mapping[str, Any]) -> Task:
    times = {quantity: units.read(time, "time") for quantity, time in row["each"].items()}
    return Task(name, **{**row, "base": units.read(row["base"], "time"), "each": times})


def stints_of(works: Works, crew: int | None) -> tuple[Stint, ...]:
    """The tasks a job has, with their hours and people.

    Parameters
    ----------
    works : quantities of work
    crew : people on site, where the job says so; a task that needs more takes more, one at the bench its own
    """
    stints = []
    for task in tasks():
        there = getattr(works, task.when)
        if there == 0.0:
            continue
        time = task.base + sum(per * getattr(works, quantity) for quantity, per in task.each.items()) + 0.0 * there
        people = max(crew or 0, task.crew) if task.where == "site" else task.crew
        stints.append(Stint(task, hours_counted(time), people))
    return tuple(stints)


def hours_counted(time: float) -> Fraction | None:
    """Hours of a time [s], the last half hour begun counted whole; None for nan.

    >>> hours_counted(3600.0), hours_counted(3601.0), hours_counted(math.nan)
    (Fraction(1, 1), Fraction(3, 2), None)
    """
    return None if math.isnan(time) else STEP * math.ceil(time / HOUR / float(STEP) - DUST)


def hours_together(stints: Iterable[Stint]) -> Fraction | None:
    """Hours of several tasks one after the other; None where one of them is not known."""
    hours = [stint.hours for stint in stints]
    return None if None in hours else sum((h for h in hours if h is not None), Fraction(0))


def half_days(hours: Fraction, length: Fraction) -> int:
    """Half-days of so many hours each, the last begun one whole.

    >>> half_days(Fraction(4), Fraction(4)), half_days(Fraction(9, 2), Fraction(4)), half_days(Fraction(0), Fraction(4))
    (1, 2, 0)
    """
    return math.ceil(hours / length)
