"""Designs evaluated one by one in ordinary batches, with nothing shared: what the search must equal."""

from __future__ import annotations

import numpy as np

from lakewright.checks.registry import CHECKS
from lakewright.physics.types import Array
from lakewright.search.circuits import Word, judge_some, word_and_margin
from lakewright.search.parts import Problem
from lakewright.search.spread import Candidates, facts_of_designs
from lakewright.state.walk import walk


def evaluate(problem: Problem, some: Candidates) -> tuple[Word, Array]:
    """Word and worst margin of each design, by the walk and every check."""
    word, margin = np.zeros(len(some), dtype=np.uint64), np.zeros(len(some))
    for which, facts in facts_of_designs(problem, some):
        verdicts = judge_some(walk(facts), facts.limits, range(len(CHECKS)))
        word[which], margin[which] = word_and_margin(verdicts)
    return word, margin
