"""The stock as rows in SI, read from the tables beside this file.

One function a table that reads its text, and `Stock`, which answers for a name. To add a part, add a line to
its table; where its numbers come from is said at the head of the table.
"""

from __future__ import annotations

import functools
import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType
from typing import Protocol, TypeVar

from lakewright.errors import StockError
from lakewright.stock.rows import ATTITUDES, Fitting, FootValve, Jet, Pipe, Points, Pump, Screen, Tank
from lakewright.stock.table import Line, lines_of

# Source: NIST Special Publication 811 (2008), appendix B.8, for all that follow; exact unless said.
INCH = 0.0254
FOOT = 0.3048
MILLIMETRE = 0.001
GALLON = 231.0 * INCH**3
GALLON_PER_MINUTE = GALLON / 60.0
POUND = 0.45359237
POUND_FORCE = POUND * 9.80665
PSI = POUND_FORCE / INCH**2
HORSEPOWER = 550.0 * FOOT * POUND_FORCE


def pipes_in(text: str, file: str) -> Iterator[Pipe]:
    """Rows of a table of pipes."""
    for line in lines_of(text, file):
        series, size = line.text("series"), line.text("size")
        yield Pipe(
            name=", ".join(part for part in (line.text("family"), series, f"{size} in") if part),
            family=line.text("family"),
            series=series,
            size=size,
            compound=line.text("compound"),
            bore=line.above_zero("bore_in", INCH),
            outside=line.above_zero("outside_in", INCH),
            wall=line.above_zero("wall_in", INCH),
            roughness=line.number("roughness_mm", MILLIMETRE),
            roughness_fouled=line.number("roughness_fouled_mm", MILLIMETRE),
            rating=line.above_zero("rating_psi", PSI),
            mass=line.above_zero("weight_lb_per_ft", POUND / FOOT),
            coils=line.rising("coils_ft", FOOT),
            price_cents_per_m=line.whole("price_cents_per_ft") / FOOT,
            origin=line.text("origin"),
        )


def foot_valves_in(text: str, file: str, turbulent_friction: Mapping[str, float]) -> Iterator[FootValve]:
    """Rows of a table of foot valves; f_T by size turns their multiples into loss coefficients."""
    for line in lines_of(text, file):
        size, attitudes = line.text("size"), tuple(line.text("attitudes").split())
        if size not in turbulent_friction:
            raise line.wrong("size", repr(size), f"one of {', '.join(turbulent_friction)}", "write a nominal size")
        if not attitudes or set(attitudes) - set(ATTITUDES):
            raise line.wrong("attitudes", repr(line.text("attitudes")), "up, side, down", "write those it seats in")
        yield FootValve(
            name=line.text("name"),
            size=size,
            bore=line.above_zero("bore_in", INCH),
            spring=line.text("kind") == "spring",
            loss_coefficient=line.above_zero("times_ft") * turbulent_friction[size],
            full_lift_factor=line.number("full_lift_factor"),
            opening_pressure=line.number("opening_psi", PSI),
            attitudes=attitudes,
            price=line.whole("price_cents"),
        )


def screens_in(text: str, file: str) -> Iterator[Screen]:
    """Rows of a table of cylinder screens."""
    for line in lines_of(text, file):
        yield Screen(
            name=line.text("name"),
            kind=line.text("kind"),
            diameter=line.above_zero("diameter_in", INCH),
            length=line.above_zero("length_in", INCH),
            opening=line.above_zero("opening_in", INCH),
            open_fraction=line.share("open_fraction"),
            structure_fraction=line.share("structure_fraction"),
            price=line.whole("price_cents"),
        )


def pumps_in(text: str, file: str) -> Iterator[Pump]:
    """Rows of a table of centrifugal pumps."""
    for line in lines_of(text, file):
        flow = line.rising("flow_gpm", GALLON_PER_MINUTE)
        npsh_flow = line.rising("npsh_flow_gpm", GALLON_PER_MINUTE)
        if flow[0] != 0.0:
            raise line.wrong("flow_gpm", repr(line.text("flow_gpm")), "a first flow of 0", "give the shut-off point")
        yield Pump(
            name=line.text("name"),
            stages=line.whole("stages"),
            flow=flow,
            head=line.as_many("head_ft", line.numbers("head_ft", FOOT), "flow_gpm", flow),
            brake_power=line.as_many("brake_hp", line.numbers("brake_hp", HORSEPOWER), "flow_gpm", flow),
            npsh_flow=npsh_flow,
            npsh=line.as_many("npsh_ft", line.numbers("npsh_ft", FOOT), "npsh_flow_gpm", npsh_flow),
            power=line.above_zero("power_hp", HORSEPOWER),
            service_factor=line.above_zero("service_factor"),
            inlet_size=line.text("inlet"),
            outlet_size=line.text("outlet"),
            price=line.whole("price_cents"),
        )


def jets_in(text: str, file: str) -> Iterator[Jet]:
    """Rows of a table of jet pumps."""
    for line in lines_of(text, file):
        lift = line.rising("lift_ft", FOOT)
        pressure = line.rising("pressure_psi", PSI)
        yield Jet(
            name=line.text("name"),
            lift=lift,
            pressure=pressure,
            flow=_table(line, lift, pressure),
            power=line.above_zero("power_hp", HORSEPOWER),
            service_factor=line.above_zero("service_factor"),
            inlet_size=line.text("inlet"),
            outlet_size=line.text("outlet"),
            price=line.whole("price_cents"),
        )


def _table(line: Line, lift: Points, pressure: Points) -> tuple[Points, ...]:
    """The flows of a jet, one group a lift, each ending in 0 at shut-off."""
    groups = line.text("flow_gpm").split("/")
    if len(groups) != len(lift):
        remedy = "part the lifts by /"
        raise line.wrong("flow_gpm", f"{len(groups)} groups", f"{len(lift)}, as in lift_ft", remedy)
    rows = []
    for group in groups:
        row = Line(line.file, line.place, {"flow_gpm": group}).numbers("flow_gpm", GALLON_PER_MINUTE)
        line.as_many("flow_gpm", row, "pressure_psi", pressure)
        if row[-1] != 0.0:
            raise line.wrong("flow_gpm", repr(group.strip()), "a last flow of 0", "give the shut-off pressure a column")
        rows.append(row)
    return tuple(rows)


def tanks_in(text: str, file: str) -> Iterator[Tank]:
    """Rows of a table of diaphragm tanks."""
    for line in lines_of(text, file):
        yield Tank(
            name=line.text("name"),
            volume=line.above_zero("volume_gal", GALLON),
            acceptance=line.above_zero("acceptance_gal", GALLON),
            max_pressure=line.above_zero("max_psi", PSI),
            price=line.whole("price_cents"),
        )


def fittings_in(text: str, file: str) -> Iterator[Fitting]:
    """Rows of a table of fittings."""
    ways = ("times_ft", "fixed", "bore_ratio")
    for line in lines_of(text, file):
        given = [way for way in ways if line.text(way)]
        if len(given) != 1:
            found = " and ".join(given) or "none"
            raise line.wrong("kind", found, "one of times_ft, fixed, bore_ratio", "leave the other two empty")
        yield Fitting(
            kind=line.text("kind"),
            counted_as=line.text("counted_as"),
            times_ft=line.number_or_nan("times_ft"),
            fixed=line.number_or_nan("fixed"),
            bore_ratio=line.share("bore_ratio") if line.text("bore_ratio") else math.nan,
            origin=line.text("origin"),
        )


def turbulent_friction_in(text: str, file: str) -> dict[str, float]:
    """f_T by nominal size."""
    return {line.text("size"): line.above_zero("f_t") for line in lines_of(text, file)}


Row = TypeVar("Row")


@dataclass(frozen=True, slots=True)
class Stock:
    """All that can be had, each table a mapping from name to row, in the order of the table."""

    pipes: Mapping[str, Pipe]
    foot_valves: Mapping[str, FootValve]
    screens: Mapping[str, Screen]
    pumps: Mapping[str, Pump]
    jets: Mapping[str, Jet]
    tanks: Mapping[str, Tank]
    fittings: Mapping[str, Fitting]
    turbulent_friction: Mapping[str, float]

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
        both: dict[str, Pump | Jet] = {**self.pumps, **self.jets}
        return _find(both, name, "a pump")

    def jet(self, name: str) -> Jet:
        """The jet pump of that name."""
        return _find(self.jets, name, "a jet pump")

    def tank(self, name: str) -> Tank:
        """The tank of that name."""
        return _find(self.tanks, name, "a tank")

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
    raise StockError(f"found {name!r}; wanted the name of {what} in stock; {remedy}")


class _Named(Protocol):
    @property
    def name(self) -> str: ...


Part = TypeVar("Part", bound=_Named)


def by_name(rows: Iterator[Part], file: str) -> Mapping[str, Part]:
    """Rows by name; a name given twice is an error."""
    found: dict[str, Part] = {}
    for row in rows:
        if row.name in found:
            remedy = "rename or remove one of the two"
            raise StockError(f"{file}: found {row.name!r} twice; wanted each name once; {remedy}")
        found[row.name] = row
    return MappingProxyType(found)


@functools.cache
def load_stock() -> Stock:
    """All tables of the package, read once."""
    tables = Path(__file__).with_name("tables")  # importlib.resources would cost start-up 10 ms more

    def table(file: str) -> str:
        return (tables / file).read_text(encoding="utf-8")

    def rows(file: str, read: Callable[[str, str], Iterator[Part]]) -> Mapping[str, Part]:
        return by_name(read(table(file), file), file)

    friction = turbulent_friction_in(table("turbulent_friction.csv"), "turbulent_friction.csv")
    valves = foot_valves_in(table("foot_valves.csv"), "foot_valves.csv", friction)
    fittings = fittings_in(table("fittings.csv"), "fittings.csv")
    return Stock(
        pipes=rows("pipes.csv", pipes_in),
        foot_valves=by_name(valves, "foot_valves.csv"),
        screens=rows("screens.csv", screens_in),
        pumps=rows("pumps.csv", pumps_in),
        jets=rows("jets.csv", jets_in),
        tanks=rows("tanks.csv", tanks_in),
        fittings=MappingProxyType({fitting.kind: fitting for fitting in fittings}),
        turbulent_friction=MappingProxyType(friction),
    )
