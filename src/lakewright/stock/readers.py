"""One function a table, from a line of text to a row in SI.

To add a part, add a line to its table; where its numbers come from is said at the head of the table.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from types import MappingProxyType

from lakewright import units
from lakewright.errors import UnitError
from lakewright.stock.kinds import FIGURES, KINDS
from lakewright.stock.measure import (
    FOOT,
    GALLON,
    GALLON_PER_MINUTE,
    HORSEPOWER,
    INCH,
    INCH_OF_MERCURY,
    MILLIMETRE,
    POUND,
    PSI,
)
from lakewright.stock.ports import PIPE_ENDS, PORT_KINDS, SERIES, Port
from lakewright.stock.rows import ATTITUDES, Fitting, FootValve, Jet, Part, Pipe, Prices, Pump, Screen, Tank
from lakewright.stock.table import NOMINAL, Line, Points

# ours: bores run from 0.72 (thick tubing) to 1.24 (thin pipe) of the inches the nominal size names; millimetres
# written for inches are 25 times too much.
_BORE_OF_SIZE = (0.5, 1.5)
_SOLD_BY = {"piece": 0.0, "ft": FOOT}


def prices_of(line: Line, sold_by: str = "piece") -> Prices:
    """The three prices of a line, for a piece or a foot."""
    counter, trade, web = (line.cents(f"{door}_cents") for door in ("counter", "trade", "web"))
    if trade > counter:
        raise line.wrong("trade_cents", f"{trade}, over the counter's {counter}", "no more than it", "change places")
    days = line.whole("lead_days")
    return Prices(
        counter=counter,
        trade=trade,
        web=web,
        length=_SOLD_BY[sold_by],
        priced=line.date("priced"),
        supplier=line.words("supplier"),
        lead_days=days,
        bin=line.text("bin"),
    )


def pipe_name(line: Line) -> str:
    """The name of a pipe: its own, or family, series and size."""
    parts = (line.text("family"), line.text("series"), f"{line.text('size')} in")
    return line.optional("name") or ", ".join(part for part in parts if part)


def pipe_in(line: Line) -> Pipe:
    """A row of the table of pipes."""
    family = line.one_of("family", PIPE_ENDS, "write the family whose ends it has, and say more in the name")
    size = line.size("size")
    bore, outside = line.above_zero("bore_in", INCH), line.above_zero("outside_in", INCH)
    wall = line.above_zero("wall_in", INCH)
    least, most = (share * NOMINAL[size] for share in _BORE_OF_SIZE)
    if not least * INCH < bore < most * INCH:
        wanted = f"{least:g} to {most:g} in for size {size}"
        raise line.wrong("bore_in", repr(line.text("bore_in")), wanted, "give inches, not millimetres")
    if not bore < outside:
        found = f"{line.text('outside_in')}, and a bore of {line.text('bore_in')}"
        raise line.wrong("outside_in", found, "an outside wider than the bore", "change places, or measure again")
    if not 2.0 * wall < outside:
        wanted = f"less than half of the outside, {line.text('outside_in')}"
        raise line.wrong("wall_in", repr(line.text("wall_in")), wanted, "measure again")
    series, kind = PIPE_ENDS[family]
    return Pipe(
        name=pipe_name(line),
        family=family,
        series=line.text("series"),
        size=size,
        compound=line.words("compound"),
        compound_class=line.words("compound_class"),
        bore=bore,
        outside=outside,
        wall=wall,
        roughness=line.number("roughness_mm", MILLIMETRE),
        roughness_fouled=line.number("roughness_fouled_mm", MILLIMETRE),
        rating=line.above_zero("rating_psi", PSI),
        vacuum_rating=line.number_or_nan("vacuum_inhg", INCH_OF_MERCURY),
        potable=line.yes("potable"),
        sunlight=line.yes("sunlight"),
        mass=line.above_zero("weight_lb_per_ft", POUND / FOOT),
        coils=line.rising("coils_ft", FOOT),
        ports=(Port(size, series, kind),) * 2,
        prices=prices_of(line, "ft"),
        origin=line.text("origin"),
    )


def foot_valve_in(line: Line, turbulent_friction: Mapping[str, float]) -> FootValve:
    """A row of the table of foot valves; f_T by size turns their multiples into loss coefficients."""
    size, attitudes = line.text("size"), tuple(line.text("attitudes").split())
    if size not in turbulent_friction:
        raise line.wrong("size", repr(size), f"one of {', '.join(turbulent_friction)}", "write a nominal size")
    if not attitudes or set(attitudes) - set(ATTITUDES):
        raise line.wrong("attitudes", repr(line.text("attitudes")), "up, side, down", "write those it seats in")
    kind = line.one_of("kind", ("spring", "hinged"), "say what shuts it")
    if kind == "hinged" and attitudes != ("down",):
        remedy = "a hinged disc shuts by its own weight and must hang"
        raise line.wrong("attitudes", repr(line.text("attitudes")), "down, for a hinged disc", remedy)
    return FootValve(
        name=line.words("name"),
        size=size,
        material=line.text("material"),
        bore=line.above_zero("bore_in", INCH),
        spring=kind == "spring",
        loss_coefficient=line.above_zero("times_ft") * turbulent_friction[size],
        full_lift_factor=line.number("full_lift_factor"),
        opening_pressure=line.number("opening_psi", PSI),
        attitudes=attitudes,
        strainer_opening=line.above_zero("strainer_opening_in", INCH),
        strainer_area=line.above_zero("strainer_area_in2", INCH**2),
        mass=line.above_zero("weight_lb", POUND),
        prices=prices_of(line),
    )


def screen_in(line: Line) -> Screen:
    """A row of the table of cylinder screens."""
    return Screen(
        name=line.words("name"),
        kind=line.words("kind"),
        diameter=line.above_zero("diameter_in", INCH),
        length=line.above_zero("length_in", INCH),
        opening=line.above_zero("opening_in", INCH),
        open_fraction=line.share("open_fraction"),
        structure_fraction=line.share("structure_fraction"),
        mass=line.above_zero("weight_lb", POUND),
        prices=prices_of(line),
    )


def pump_in(line: Line) -> Pump:
    """A row of the table of centrifugal pumps."""
    flow = line.rising("flow_gpm", GALLON_PER_MINUTE)
    npsh_flow = line.rising("npsh_flow_gpm", GALLON_PER_MINUTE)
    if flow[0] != 0.0:
        raise line.wrong("flow_gpm", repr(line.text("flow_gpm")), "a first flow of 0", "give the shut-off point")
    head = line.as_many("head_ft", line.numbers("head_ft", FOOT), "flow_gpm", flow)
    if not head[-1] < head[0]:
        remedy = "write the heads in the order of the flows"
        raise line.wrong("head_ft", repr(line.text("head_ft")), "less head at run-out than at shut-off", remedy)
    return Pump(
        name=line.words("name"),
        stages=line.whole("stages"),
        flow=flow,
        head=head,
        brake_power=line.as_many("brake_hp", line.numbers("brake_hp", HORSEPOWER), "flow_gpm", flow),
        npsh_flow=npsh_flow,
        npsh=line.as_many("npsh_ft", line.numbers("npsh_ft", FOOT), "npsh_flow_gpm", npsh_flow),
        power=line.above_zero("power_hp", HORSEPOWER),
        service_factor=line.above_zero("service_factor"),
        inlet_size=line.size("inlet"),
        outlet_size=line.size("outlet"),
        mass=line.above_zero("weight_lb", POUND),
        prices=prices_of(line),
    )


def jet_in(line: Line) -> Jet:
    """A row of the table of jet pumps."""
    lift = line.rising("lift_ft", FOOT)
    pressure = line.rising("pressure_psi", PSI)
    return Jet(
        name=line.words("name"),
        lift=lift,
        pressure=pressure,
        flow=_flows(line, lift, pressure),
        power=line.above_zero("power_hp", HORSEPOWER),
        service_factor=line.above_zero("service_factor"),
        inlet_size=line.size("inlet"),
        outlet_size=line.size("outlet"),
        mass=line.above_zero("weight_lb", POUND),
        prices=prices_of(line),
    )


def _flows(line: Line, lift: Points, pressure: Points) -> tuple[Points, ...]:
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


def tank_in(line: Line) -> Tank:
    """A row of the table of diaphragm tanks."""
    volume, acceptance = line.above_zero("volume_gal", GALLON), line.above_zero("acceptance_gal", GALLON)
    if not acceptance < volume:
        wanted = f"less than the whole volume, {line.text('volume_gal')}"
        remedy = "give the most water the diaphragm lets in"
        raise line.wrong("acceptance_gal", repr(line.text("acceptance_gal")), wanted, remedy)
    return Tank(
        name=line.words("name"),
        volume=volume,
        acceptance=acceptance,
        max_pressure=line.above_zero("max_psi", PSI),
        connection=line.size("connection"),
        mass=line.above_zero("weight_lb", POUND),
        prices=prices_of(line),
    )


def fitting_in(line: Line) -> Fitting:
    """A row of the table of fittings."""
    given = [way for way in ("times_ft", "fixed", "bore_ratio") if line.text(way)]
    if len(given) != 1:
        found = " and ".join(given) or "none"
        raise line.wrong("kind", found, "one of times_ft, fixed, bore_ratio", "leave the other two empty")
    return Fitting(
        kind=line.words("kind"),
        counted_as=line.text("counted_as"),
        times_ft=line.number_or_nan("times_ft"),
        fixed=line.number_or_nan("fixed"),
        bore_ratio=line.share("bore_ratio") if line.text("bore_ratio") else math.nan,
        origin=line.text("origin"),
    )


def make_up_name(line: Line) -> str:
    """What a row of make_up.csv is asked for by: a port in words, "thread" for either thread."""
    return f"{line.text('kind')} {line.text('size')} {line.text('series')}"


def part_in(line: Line, make_up: Mapping[str, float]) -> Part:
    """A row of the tables of small parts; the make-up of each port is that of its kind, series and size."""
    kind = line.one_of("kind", KINDS, "write a kind in stock")
    sold_by = line.one_of("sold_by", _SOLD_BY, "say piece or ft")
    ports = _ports(line)
    wet = bool(ports)
    return Part(
        name=line.words("name"),
        kind=kind,
        series=line.text("series"),
        size=line.text("size"),
        material=line.text("material"),
        ports=ports,
        bore=line.above_zero("bore_in", INCH) if wet else math.nan,
        times_ft=line.number("times_ft") if line.text("times_ft") else 0.0,
        branch_times_ft=line.number_or_nan("branch_times_ft"),
        fixed=line.number("fixed") if line.text("fixed") else 0.0,
        length=line.number("length_in", INCH) if line.text("length_in") else 0.0,
        make_up=tuple(_make_up(line, port, make_up) for port in ports),
        rating=line.above_zero("rating_psi", PSI) if wet else math.nan,
        mass=line.above_zero("weight_lb", POUND / (_SOLD_BY[sold_by] or 1.0)),
        figures=_figures(line, kind),
        prices=prices_of(line, sold_by),
        origin=line.text("origin"),
    )


def _ports(line: Line) -> tuple[Port, ...]:
    """The ports of a cell such as "thread out 1-1/4 NPT | barb 1-1/4 SIDR"."""
    ports = []
    for text in filter(None, (part.strip() for part in line.text("ports").split("|"))):
        kind = next((kind for kind in PORT_KINDS if text.startswith(f"{kind} ")), "")
        size, _, series = text.removeprefix(kind).strip().partition(" ")
        if not kind:
            remedy = "write such as thread in 1-1/4 NPT"
            raise line.wrong("ports", repr(text), f"one of {', '.join(PORT_KINDS)} first", remedy)
        if size not in NOMINAL:
            raise line.wrong("ports", repr(text), f"a nominal size after {kind}", f"write such as {kind} 1-1/4")
        if series not in SERIES[kind]:
            wanted = f"one of {', '.join(SERIES[kind])} after the size"
            raise line.wrong("ports", repr(text), wanted, f"write such as {kind} {size} {SERIES[kind][0]}")
        ports.append(Port(size, series, kind))
    return tuple(ports)


def _make_up(line: Line, port: Port, make_up: Mapping[str, float]) -> float:
    if port.kind in ("plain end", "union"):
        return 0.0
    kind = "thread" if port.kind.startswith("thread") else port.kind
    name = f"{kind} {port.size} {port.series}"
    if name not in make_up:
        raise line.wrong("ports", repr(str(port)), "a port of a size that is made", "write a size in make_up.csv")
    return make_up[name]


def _figures(line: Line, kind: str) -> Mapping[str, float]:
    """The figures of a cell such as "cut_in 30 psi; cut_out 50 psi"."""
    figures: dict[str, float] = {}
    for text in filter(None, (part.strip() for part in line.text("figures").split(";"))):
        name, _, amount = text.partition(" ")
        if name not in FIGURES:
            raise line.wrong("figures", repr(name), f"one of {', '.join(KINDS[kind]) or 'none'}", "take it out")
        try:
            figures[name] = units.read(amount, FIGURES[name])
        except UnitError as error:
            raise line.wrong("figures", f"{name}: {error.found}", error.wanted, error.remedy) from None
    if missing := [name for name in KINDS[kind] if name not in figures]:
        wanted = f"{', '.join(KINDS[kind])} of a {kind}"
        raise line.wrong(
            "figures", f"no {' and no '.join(missing)}", wanted, f"write such as {missing[0]} and its unit"
        )
    return MappingProxyType(figures)
