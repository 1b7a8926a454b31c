"""The stock: all tables beside this file, and `Stock`, which answers for a name."""

from __future__ import annotations

import functools
import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields
from pathlib import Path
from typing import Any, TypeVar

from lakewright.errors import StockError
from lakewright.stock import readers
from lakewright.stock.measure import INCH
from lakewright.stock.rows import Fitting, FootValve, Jet, Part, Pipe, Pump, Screen, Tank
from lakewright.stock.table import Line, Table

Row = TypeVar("Row")


@dataclass(frozen=True, slots=True, eq=False)
class Stock:
    """All that can be had, each table a mapping from name to row, in the order of the table.

    One stock equals itself alone, so that what is worked out from one can be kept by it.
    """

    pipes: Table[Pipe]
    foot_valves: Table[FootValve]
    screens: Table[Screen]
    pumps: Table[Pump]
    jets: Table[Jet]
    tanks: Table[Tank]
    parts: Table[Part]
    fittings: Table[Fitting]
    turbulent_friction: Table[float]
    make_up: Table[float]

    def pipe(self, name: str) -> Pipe:
        """The pipe of that name."""
        return _find(self.pipes, name, "a pipe")

    def foot_valve(self, name: str) -> FootValve:
        """The foot valve of that name."""
        return _find(self.foot_valves, name, "a foot valve")

    def screen(self, name: str) -> Screen:
        """The screen of that name."""
        return _find(self.screens, name, "a screen")

    def pump(self, name: str) -> Pump | Jet:
        """The pump of that name, centrifugal or jet: a job file names either the same way."""
        if name in self.pumps:
            return self.pumps[name]
        if name in self.jets:
            return self.jets[name]
        both: dict[str, Pump | Jet] = {**self.pumps, **self.jets}
        return _find(both, name, "a pump")

    def jet(self, name: str) -> Jet:
        """The jet pump of that name."""
        return _find(self.jets, name, "a jet pump")

    def tank(self, name: str) -> Tank:
        """The tank of that name."""
        return _find(self.tanks, name, "a tank")

    def part(self, name: str) -> Part:
        """The small part of that name."""
        return _find(self.parts, name, "a part")

    def parts_of(self, *kinds: str) -> list[Part]:
        """The small parts of some kinds."""
        return [part for kind in kinds for part in self.parts.having("kind", kind)]

    def fitting(self, kind: str) -> Fitting:
        """The fitting of that kind."""
        return _find(self.fittings, kind, "a fitting")

    def ft(self, size: str) -> float:
        """f_T of a nominal size [-]."""
        return _find(self.turbulent_friction, size, "a nominal size")

    def loss_coefficient(self, counts: Mapping[str, int], size: str) -> float:
        """Sum of the loss coefficients [-] of fittings counted in a job file's words, at a nominal size."""
        by_word = {fitting.counted_as: fitting for fitting in self.fittings.values() if fitting.counted_as}
        friction = self.ft(size)
        return math.fsum(
            number * _find(by_word, word, "a fitting a job file counts").loss_coefficient(friction)
            for word, number in counts.items()
        )

    def tables(self) -> dict[str, Table[Any]]:
        """Every table by its name."""
        return {field.name: getattr(self, field.name) for field in fields(self)}


def _find(rows: Mapping[str, Row], name: str, what: str) -> Row:
    """The row of a name, or an error that offers the nearest names."""
    if name in rows:
        return rows[name]
    from difflib import get_close_matches  # only a miss needs it, and start-up should not pay for it

    known = {each.lower(): each for each in rows}
    # ours: 0.5 offers a name with a third of its letters wrong and stays silent on a stranger.
    near = get_close_matches(name.lower(), known, n=3, cutoff=0.5)
    offered = " or ".join(repr(known[each]) for each in near)
    listed = f"write one of the {len(rows)} names in stock, such as {next(iter(rows))!r}"
    remedy = f"did you mean {offered}?" if near else listed
    raise StockError(repr(name), f"the name of {what} in stock", remedy)


def _name(line: Line) -> str:
    return line.text("name")


PART_FILES = ("parts_threaded.csv", "parts_by_pipe.csv", "parts_valves.csv", "parts_gear.csv")


@functools.cache
def load_stock() -> Stock:
    """All tables of the package, each read when it is first asked something."""
    tables = Path(__file__).with_name("tables")  # importlib.resources would cost start-up 10 ms more

    def table(read: Callable[[Line], Row], *files: str, name_of: Callable[[Line], str] = _name) -> Table[Row]:
        return Table(read, name_of, tuple(tables / file for file in files))

    friction = table(
        lambda line: line.above_zero("f_t"), "turbulent_friction.csv", name_of=lambda line: line.text("size")
    )
    make_up = table(lambda line: line.above_zero("make_up_in", INCH), "make_up.csv", name_of=readers.make_up_name)
    return Stock(
        pipes=table(readers.pipe_in, "pipes.csv", name_of=readers.pipe_name),
        foot_valves=table(lambda line: readers.foot_valve_in(line, friction), "foot_valves.csv"),
        screens=table(readers.screen_in, "screens.csv"),
        pumps=table(readers.pump_in, "pumps.csv"),
        jets=table(readers.jet_in, "jets.csv"),
        tanks=table(readers.tank_in, "tanks.csv"),
        parts=table(lambda line: readers.part_in(line, make_up), *PART_FILES),
        fittings=table(readers.fitting_in, "fittings.csv", name_of=lambda line: line.text("kind")),
        turbulent_friction=friction,
        make_up=make_up,
    )
