"""Bench drawings of stands drawn at random, turn and turn about in US units and SI."""

from __future__ import annotations

import functools
from dataclasses import replace

from lakewright.api.check import check
from lakewright.documents.bench import Bench, bench
from lakewright.report import Report
from lakewright.state.placed import Stand
from tests.job.example import EXAMPLE
from tests.state.random_stands import STOCK, stand

FEW, MANY = range(24), range(24, 300)


@functools.cache
def report(system: str) -> Report:
    return replace(check(EXAMPLE), units=system)


def system_of(seed: int) -> str:
    return ("US", "SI")[seed % 2]


@functools.lru_cache(maxsize=32)
def made(seed: int) -> tuple[Stand, Bench]:
    built = stand(seed)
    return built, bench(built, STOCK, report(system_of(seed)))
