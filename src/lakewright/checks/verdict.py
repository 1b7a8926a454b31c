"""What a status means. Here and nowhere else.

margin = surplus / comfort, plus is good, the worst over the check's list of cases:
below 0 fails, from 0 to 1 is tight, 1 and more holds. nan is unknown: it never passes. A case nobody asks about has an
infinite margin; a check nobody asks about in any case is not asked.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

import numpy as np
from numpy.typing import NDArray

from lakewright.physics.types import Array
from lakewright.state.limits import Limits

FAILS, TIGHT, HOLDS, UNKNOWN, NOT_ASKED = range(5)
STATUS_WORDS = ("fails", "tight", "holds", "unknown", "not asked")


@dataclass(frozen=True, eq=False, repr=False)
class Verdict:
    """One check's arrays. `margin` and `status` have the batch's shape; the rest is worked out when asked for.

    `by_case` holds the margins over batch and case, infinite where the check is not asked. `which_by_case` says which
    of several like things, branches say, each case speaks of.
    """

    margin: Array
    status: NDArray[np.int8]
    by_case: Array
    value_by_case: Array
    limit_by_case: Array
    which_by_case: NDArray[np.intp] | None = None

    @property
    def which(self) -> int | None:
        """For one job: which of several like things governs, in the governing case."""
        return None if self.which_by_case is None else int(self._governing(self.which_by_case)[()])

    @cached_property
    def case(self) -> NDArray[np.intp]:
        """The governing case: the one with the worst margin, an unknown one before all."""
        found: NDArray[np.intp] = np.argmin(np.where(np.isnan(self.by_case), -np.inf, self.by_case), axis=-1)
        return found

    @property
    def value(self) -> Array:
        """The value in the governing case."""
        return self._governing(self.value_by_case)

    @property
    def limit(self) -> Array:
        """The limit in the governing case."""
        return self._governing(self.limit_by_case)

    def _governing(self, array: NDArray[Any]) -> NDArray[Any]:
        whole = array if array.shape == self.by_case.shape else np.broadcast_to(array, self.by_case.shape)
        if whole.ndim == 1:  # one job
            return np.asarray(whole[int(self.case)])
        found: NDArray[Any] = np.take_along_axis(whole, self.case[..., None], axis=-1)[..., 0]
        return found


@dataclass(frozen=True)
class Check:
    """A check: what it asks, of what, and everything about it that never changes.

    force : "must" decides whether a job passes, "should" ranks, "note" informs
    block : the block it reads; cases : the list of cases it is judged in; shows : the kind of its value
    label, limit_words : what the value is, and how the limit is put beside it
    short_words : what the value is called when it is less than nothing
    reach : "all" designs of a search, or those "picked" for its shortlist alone, where it is dear
    needs : the facts it rests on; source : where its limit comes from; figures : the limits it uses
    """

    function: Callable[[Any, Limits], Verdict]
    force: str
    block: str
    cases: str
    shows: str
    at: str
    needs: tuple[str, ...]
    source: str
    remedy: str
    label: str
    limit_words: str
    unit: str
    figures: tuple[str, ...] = ()
    short_words: str = ""
    reach: str = "all"
    other_needs: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

    @property
    def name(self) -> str:
        """The good outcome, as the function is called."""
        return self.function.__name__

    @property
    def question(self) -> str:
        """The first line of the function's docstring."""
        return (self.function.__doc__ or "").strip().splitlines()[0]

    def facts_needed(self, pump_kind: str) -> tuple[str, ...]:
        """The facts this check rests on with this kind of pump."""
        return tuple(dict.fromkeys(self.needs + self.other_needs.get(pump_kind, ())))


def at_least(value: Array, limit: Array | float, comfort: Array | float, where: Any = True) -> Verdict:
    """The value should reach the limit, and comfortably pass it.

    Parameters
    ----------
    value, limit, comfort : broadcast over batch and case; comfort above 0
    where : cases in which it is asked
    """
    limits = np.asarray(limit, dtype=float)
    return _judge(value, limits, (value - limits) / comfort, where)


def at_most(value: Array, limit: Array | float, comfort: Array | float, where: Any = True) -> Verdict:
    """The value should stay under the limit, and comfortably so."""
    limits = np.asarray(limit, dtype=float)
    return _judge(value, limits, (limits - value) / comfort, where)


def all_or_nothing(value: Array, limit: float, where: Any = True) -> Verdict:
    """The value reaches the limit or it does not: nothing lies between, and there is no comfort in more."""
    return _judge(value, np.asarray(limit), np.where(value >= limit, 1.0, -1.0) + 0.0 * value, where)


def none_over(value: Array, limit: Array | float, where: Any = True) -> Verdict:
    """The value is no more than the limit, and there is no comfort in less."""
    margin = np.where(value <= limit, 1.0, -1.0) + 0.0 * np.where(np.isinf(value - limit), 0.0, value - limit)
    return _judge(value, np.asarray(limit), margin, where)


def within_band(value: Array, lowest: Array, highest: Array, least_band: float, where: Any = True) -> Verdict:
    """Against rules that disagree: at or above the highest holds, between is tight, below the lowest fails.

    `least_band` is the yardstick where the rules agree. The limit shown is the highest.
    """
    gap, width = value - lowest, np.maximum(highest - lowest, least_band)
    # A band without an upper end measures nothing: what falls short of its lower end is then measured by the yardstick.
    margin = np.where((gap < 0.0) & np.isinf(width), gap / least_band, gap / width)
    return _judge(value, highest, margin, where)


def under_band(value: Array, lowest: Array, highest: Array, where: Any = True) -> Verdict:
    """The same for a value that should be small: at or under the lowest rule holds, over the highest fails."""
    return _judge(value, highest, (highest - value) / (highest - lowest), where)


LEAST_BESIDE = 1e-6
"""ours: of what stands beside a value, so that it goes into it a countable number of times."""


def told(value: Array, beside: Array, where: Any = True) -> Verdict:
    """A value told beside another, in good and in bad: it holds wherever both are known, and is good for nothing else.

    The margin is 1 and how often the other goes into the value, so that the case with the least of it speaks.
    """
    return _judge(value, beside, 1.0 + np.maximum(value, 0.0) / np.maximum(beside, LEAST_BESIDE), where)


def worse_of(one: Verdict, other: Verdict, where: Any = True) -> Verdict:
    """Both must be good: in each case the one with the smaller margin speaks. Unknown outweighs both."""
    take = (other.by_case < one.by_case) | np.isnan(other.by_case)
    margin = np.where(take, other.by_case, one.by_case)
    value = np.where(take, other.value_by_case, one.value_by_case)
    return _judge(value, np.where(take, other.limit_by_case, one.limit_by_case), margin, where)


def _judge(value: Array, limit: Array, margin: Array, where: Any) -> Verdict:
    mask = np.asarray(where, dtype=bool)
    by_case = margin if where is True else np.where(mask, margin, np.inf)
    asked = np.asarray(mask if where is True else mask.any(axis=-1))
    worst = by_case.min(axis=-1)
    # Comparisons with nan are false, so what is left over is unknown.
    status = np.full(worst.shape, UNKNOWN, dtype=np.int8)
    status[worst >= 1.0] = HOLDS
    status[(worst >= 0.0) & (worst < 1.0)] = TIGHT
    status[worst < 0.0] = FAILS
    status[np.broadcast_to(~asked, worst.shape)] = NOT_ASKED
    return Verdict(worst, status, by_case, value, limit)
