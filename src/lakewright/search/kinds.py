"""Why a pick has the kind of pump it has: what stands against every pump of the other kind in its place."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from lakewright.checks.registry import FLOW_CHECKS
from lakewright.search.circuits import MUST
from lakewright.search.flat import evaluate
from lakewright.search.parts import Problem


def other_kind_words(problem: Problem, option: Sequence[int]) -> str:
    """What to say of the other kind of pump; nothing where there was none to choose, or one of them would do.

    Parameters
    ----------
    option : of each part of the pick
    """
    at, options = problem.position("pump"), np.array(option, dtype=np.intp)
    kind = problem.pumps[options[at]].kind
    others = np.array([n for n, option in enumerate(problem.pumps) if option.kind != kind], dtype=np.intp)
    swapped = np.repeat(options[None, :], len(others), axis=0)
    swapped[:, at] = others
    swapped = swapped[problem.joins_at(list(swapped.T))]
    if not len(swapped):
        return ""
    word, _ = evaluate(problem, swapped)
    if not ((word & MUST) != 0).all():
        return ""
    fails = [int(((word & MUST & np.uint64(1 << n)) != 0).sum()) for n in range(len(FLOW_CHECKS))]
    worst = int(np.argmax(fails))
    other = problem.pumps[swapped[0, at]].kind
    if fails[worst] == 0:
        return ""
    many = "all" if fails[worst] == len(swapped) else str(fails[worst])
    check = FLOW_CHECKS[worst].name.replace("_", " ")
    return f'a {kind}: of {len(swapped)} {other} pumps in its place none will do, {many} by "{check}"'
