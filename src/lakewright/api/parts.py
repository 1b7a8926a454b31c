"""What a job is built of: its bill at each of the three prices, what is cut, and what the whole is quoted at."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from lakewright.api.read import read
from lakewright.api.report import report_on
from lakewright.search.option import said
from lakewright.state.bill import bill_of
from lakewright.state.cut_list import Making, making_of
from lakewright.state.priced import Priced
from lakewright.state.stand import stand_of

LEVELS = ("counter", "trade", "web")


@dataclass(frozen=True)
class Parts:
    """The parts of a job.

    priced : bill and quote, None where no suction pump will do; ways_out : what will, then
    levels : what the parts come to at each of the three prices [cents]; level : the one that is quoted
    making : what is cut, drilled and taped
    """

    units: str
    priced: Priced | None
    ways_out: tuple[str, ...]
    levels: tuple[tuple[str, int], ...]
    level: str
    making: Making


def parts(path: Path, text: str | None = None) -> Parts:
    """The parts of the job in a file, or in a draft of it.

    Raises
    ------
    JobError where it cannot be used
    """
    job, stock, assembly = read(path, text)
    found = report_on(job, assembly, stock=stock)
    each = {level: bill_of(said(job, {"price.level": level}), stock, assembly).price for level in LEVELS}
    return Parts(
        units=found.units,
        priced=found.priced,
        ways_out=found.ways_out,
        levels=tuple(each.items()),
        level=job.price.level or LEVELS[0],
        making=making_of(stand_of(job, stock, assembly), stock),
    )
