"""Designs evaluated one by one in ordinary batches, with nothing shared: what the search must equal."""

from __future__ import annotations

import numpy as np

from lakewright.checks.registry import FLOW_CHECKS
from lakewright.physics.types import Array
from lakewright.search.circuits import Word, judge_some, word_and_margin
from lakewright.search.parts import Index, Problem, values_at
from lakewright.state.batch import pumps_of
from lakewright.state.facts import Facts
from lakewright.state.walk import walk_flow


def facts_of_designs(problem: Problem, options: Index) -> list[tuple[Index, Facts]]:
    """Designs as ordinary batches, one a kind of pump: which of them, and their facts.

    Parameters
    ----------
    options : the option of each part, shape (design, part)
    """
    columns, pump = [part.columns for part in problem.parts], options[:, problem.position("pump")]
    kinds = np.array([option.kind for option in problem.pumps])[pump]
    batches = []
    for kind in ("centrifugal", "jet"):
        which = np.flatnonzero(kinds == kind)
        if len(which):
            values = values_at(columns, list(options[which].T))
            pumps = pumps_of([option.facts for option in problem.pumps], pump[which])
            batches.append((which, problem.with_pump(int(pump[which[0]])).with_values(values | pumps)))
    return batches


def evaluate(problem: Problem, options: Index) -> tuple[Word, Array]:
    """Word and worst margin of each design, by the walk and every check of its flow."""
    word, margin = np.zeros(len(options), dtype=np.uint64), np.zeros(len(options))
    for which, facts in facts_of_designs(problem, options):
        verdicts = judge_some(walk_flow(facts), facts.limits, range(len(FLOW_CHECKS)))
        word[which], margin[which] = word_and_margin(verdicts, (len(which),))
    return word, margin
