"""The path of the water: stand, suction line, pump, delivery, and the valves that hold it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Annotated, Any, Literal

from lakewright.job.models_control import Controller, ControlName, Store
from lakewright.job.models_curve import CurvePoint, PowerPoint, curve_runs_on
from lakewright.job.quantity import (
    Bore,
    FieldProblem,
    Flow,
    FlowOrOpen,
    Gauge,
    Head,
    Height,
    HeightOrOpen,
    Length,
    LengthOrOpen,
    Mass,
    Number,
    Part,
    PartOrOpen,
    Power,
    PressureLoss,
    Quantity,
    Roughness,
    ScreenArea,
    Share,
    ShareOverOne,
    Slope,
    Vacuum,
    Voltage,
    Volume,
    echo,
)
from lakewright.job.table import (
    Count,
    Rule,
    Table,
    Text,
    YesNoUnknown,
    count_of,
    distances_rise,
    field,
    names_differ,
    required,
    rows,
    some_of_it_is_open,
    table,
    values_rise,
)


class Fittings(Table):
    """Fittings of a pipe, counted."""

    elbows: Count = count_of("Elbows of 90 degrees.")
    elbows45: Count = count_of("Elbows of 45 degrees.")
    inserts: Count = count_of("Barbed adapters pushed into the pipe.")
    tees: Count = count_of("Tees that the water passes straight through.")
    tee_branches: Count = count_of("Tees that the water turns in.")
    unions: Count = count_of("Unions.")
    valves: Count = count_of("Valves that stand open.")
    checks: Count = count_of("Check valves, the foot valve not among them.")


class Ballast(Table):
    """What holds the stand down."""

    what: Text | None = field("What it is: steel angle, concrete, bags of stone.")
    mass: Mass | None = field("Its mass in air.")


class Inlet(Table):
    """The end of the line in the water."""

    kind: Literal["foot valve", "screen"] | None = field("A foot valve, or a screen alone.")
    stock: Text | None = field('Its name in the stock, or "open".')
    attitude: Literal["up", "side", "down"] | None = field("Which way its entrance points.")
    screen: Text | None = field('Name in the stock of the screen over it, or "open"; "none" for a bare foot valve.')
    loss_coefficient: Number | None = field("Head lost in it, as a multiple of the velocity head in its bore.")
    opening_pressure: PressureLoss | None = field("What its spring takes at any flow.")
    bore: Bore | None = field("Its bore.")
    screen_area: ScreenArea | None = field("Whole area of the screen, structure and all.")
    screen_opening: Part | None = field("Width of a slot, or diameter of a hole, of the screen.")
    screen_open_fraction: Share | None = field("Open part of the screen's area.")


class Stand(Table):
    """What stands on the bed and holds the inlet up."""

    form: Literal["upright", "side", "low", "hung", "floating", "box", "open"] | None = field("How it is built.")
    at: LengthOrOpen | None = field("How far out from the water's edge it stands.")
    riser: PartOrOpen | None = field("From the bed to the entrance of the inlet.")
    legs: Count | None = field("How many legs.")
    reach: Part | None = field("From the riser's axis to the tip of a leg, measured level.")
    frame: Text | None = field('Nominal size of the frame\'s pipe, or "open".')
    wet: Literal["wet", "dry"] | None = field("Whether the legs are part of the suction path.")
    ballast: Ballast = table(Ballast, "What holds it down.")
    pads: Part | None = field("Width of the mud pad under each leg.")
    pins: Count | None = field("Pins or stakes driven into the bed.")
    tether: bool | None = field("Whether it is tied to the shore or an anchor.")
    inlet: Inlet = table(Inlet, "The end of the line.")


class RoutePoint(Table):
    """A point of a line's route, between the water's edge and the pump or beyond it."""

    distance: Length = required("Length along the line from its lower end.")
    height: Height = required("Height of the line there, from the usual water level.")


def weights_have_room(spacing: Quantity, _: Mapping[str, Any]) -> None:
    """One weight beside the next."""
    if spacing.low < LEAST_SPACING:
        raise FieldProblem(echo(spacing.text), "2 in (50 mm) or more", "give the length of line from one to the next")


LEAST_SPACING = 0.05
"""ours: [m], about the size of the smallest weight there is."""


class LineWeights(Table):
    """What keeps the line on the bed."""

    what: Text | None = field("What they are.")
    mass: Mass | None = field("Mass of each in air.")
    spacing: Annotated[Length | None, Rule(weights_have_room)] = field("Distance from one to the next.")


class Suction(Table):
    """The line from the inlet to the pump."""

    stock: Text | None = field('Name of the pipe in the stock, or "open".')
    bore: Bore | None = field("Bore, where the pipe is not from the stock.")
    length: LengthOrOpen | None = field("Length, where it is not to follow from the places of stand and pump.")
    along: Share | None = field("Share added to the length because the line wanders.")
    roughness: Roughness | None = field("Roughness of the wall when new.")
    roughness_fouled: Roughness | None = field("Roughness of the wall after years.")
    fittings: Fittings = table(Fittings, "Its fittings, those of the pump among them.")
    loss_coefficient: Number | None = field("Head lost in all its fittings, as a multiple of the velocity head.")
    joints_above_water: Count | None = field("Joints between the lowest waterline and the pump.")
    weights: LineWeights = table(LineWeights, "What keeps it on the bed.")
    buried_from: Length | None = field("How far out from the water's edge it is buried.")
    staked_to: Length | None = field("How far out from the water's edge it is buried, sleeved or staked.")
    trench_depth: Length | None = field("Earth over it where it is buried, and lies least deep.")
    slope: Slope | None = field("Least rise toward the pump, of the part above the lowest water.")
    route: Annotated[list[RoutePoint], Rule(distances_rise)] = rows(
        "Heights along the line, from the inlet to the pump."
    )
    sunlit: bool | None = field("Whether the part on the bank lies in the sun.")
    vacuum_rating: Vacuum | None = field("Vacuum it may stand at for years.")
    pressure_rating: Gauge | None = field("Pressure it may stand at for years.")


class PumpPlace(Table):
    """A place where the pump could go."""

    name: Text = required("What to call the place.")
    distance: Length = required("How far up from the water's edge.")
    height: Height = required("Height of the pump's suction port there, from the usual water level.")


def one_pump(own: object, before: Mapping[str, Any]) -> None:
    """A pump is from the stock, or has its own curve."""
    stock = before.get("stock")
    if own and stock is not None:
        raise FieldProblem(
            f"a curve of its own beside stock = {echo(stock)}",
            "a pump from the stock, or its own curve, not both",
            "take out one of the two",
        )


def flows_fill_the_table(flows: Sequence[Sequence[Quantity]], before: Mapping[str, Any]) -> None:
    """There is a flow for each lift and pressure."""
    lifts, pressures = before.get("lifts"), before.get("pressures")
    if lifts is not None and len(flows) != len(lifts):
        raise FieldProblem(
            counted(len(flows), "row"),
            f"a row for each lift: {len(lifts)}",
            "give one row of flows for each lift",
        )
    for index, row in enumerate(flows):
        if pressures is not None and len(row) != len(pressures):
            raise FieldProblem(
                counted(len(row), "flow"),
                f"a flow for each pressure: {len(pressures)}",
                "give one flow for each pressure, and 0 gpm where the pump no longer delivers",
                at=(index,),
            )


class LiftTable(Table):
    """What a jet pump delivers, by lift and by pressure."""

    lifts: Annotated[list[Head], Rule(values_rise)] = rows("Lifts, rising.")
    pressures: Annotated[list[Gauge], Rule(values_rise)] = rows(
        "Pressures at the pump's outlet, rising; the last is the shut-off."
    )
    flows: Annotated[list[list[Flow]], Rule(flows_fill_the_table)] = rows(
        "A row of flows for each lift, one for each pressure."
    )


def throat_is_wider(throat: Quantity, before: Mapping[str, Any]) -> None:
    """The jet of the nozzle leaves room beside it in the throat."""
    nozzle = before.get("nozzle")
    if nozzle is not None and throat.value <= nozzle.value:
        raise FieldProblem(
            echo(throat.text),
            f"a throat wider than the nozzle, {echo(nozzle.text)}",
            "measure both with the shank of a drill",
        )


class Ejector(Table):
    """A jet's ejector by its sizes, driven by the pump whose curve or stock is given."""

    nozzle: Bore | None = field("Bore of its nozzle.")
    throat: Annotated[Bore | None, Rule(throat_is_wider)] = field("Bore of its throat.")
    below: Length | None = field("How far below the pump it hangs on two pipes; at the pump where not given.")
    pipe_length: Length | None = field("Length of each of the two pipes, where it is more than that.")
    drive_bore: Bore | None = field("Bore of the pipe down to it.")
    back_bore: Bore | None = field("Bore of the pipe back up.")
    back_pressure: Gauge | None = field("Pressure that a control valve keeps at the pump's outlet.")
    nozzle_loss: Number | None = field("Loss coefficient of the nozzle, on the jet's velocity.")
    entry_loss: Number | None = field("Loss coefficient of the water drawn, on its velocity beside the jet.")
    mixing_loss: Number | None = field("Loss coefficients of throat and diffuser, on the mixed water's velocity.")
    cavitation: Number | None = field(
        "Pressure over boiling, in velocity heads beside the jet, at which the water boils there."
    )


class Faults(Table):
    """What is wrong with the system, for looking at a sick one; without any, all is well."""

    wear: Share | None = field("Share of its head that the pump has lost to wear.")
    speed: ShareOverOne | None = field("Speed of the pump as a share of its rated speed.")
    air: Share | None = field("Share of air in the water, by volume, at the pump.")
    nozzle: Share | None = field("Share of a jet's nozzle that is plugged.")
    valve_opening: Share | None = field("How far the foot valve opens.")
    blocked: Annotated[Share | None, Rule(some_of_it_is_open)] = field(
        "Share of the screen that is blocked, beside the day's dirt."
    )
    level_offset: Height | None = field("How much higher the water is than the day says.")
    line_opening: Share | None = field("Share of the suction line left open where it is narrowest: a kink, a lining.")
    delivery_opening: Share | None = field("Share of the delivery line left open where it is narrowest.")
    airtight: Share | None = field(
        "Share of its standing vacuum that the suction line keeps; a leak of air lets it go."
    )


class Pump(Table):
    """The pump, and where it goes."""

    kind: Literal["centrifugal", "jet", "open"] | None = field("What kind of pump.")
    stock: Text | None = field('Its name in the stock, or "open".')
    distance: LengthOrOpen | None = field("How far up from the water's edge it stands.")
    height: HeightOrOpen | None = field("Height of its suction port from the usual water level.")
    places: Annotated[list[PumpPlace], Rule(names_differ)] = rows("The places to try when its place is open.")
    curve: Annotated[list[CurvePoint], Rule(curve_runs_on), Rule(one_pump)] = rows(
        "Its own head by flow, where it is not from the stock."
    )
    npsh: Annotated[list[CurvePoint], Rule(curve_runs_on), Rule(one_pump)] = rows("Its own NPSH required by flow.")
    shaft_power: Annotated[list[PowerPoint], Rule(curve_runs_on), Rule(one_pump)] = rows(
        "The power it asks of its motor by flow, as its maker publishes it."
    )
    lift_table: Annotated[LiftTable, Rule(one_pump)] = table(LiftTable, "A jet's own flow by lift and pressure.")
    ejector: Ejector = table(Ejector, "A jet's ejector by its sizes.")
    power: Power | None = field("Rated power of the motor.")
    inlet: Bore | None = field("Bore of its suction port.")
    outlet: Bore | None = field("Bore of its discharge port.")
    voltage: Voltage | None = field("Rated voltage.")
    self_priming: bool | None = field("Whether it draws the air out of its line itself.")
    air_rate: Flow | None = field("Air that it draws while there is no vacuum.")
    prime_lift: Head | None = field("The highest it draws water up by drawing out the air.")
    casing_volume: Volume | None = field("Water its casing holds.")
    shut_off: Head | None = field("Head at no flow, where only that is known.")
    faults: Faults = table(Faults, "What is wrong with the system.")


def cut_out_above_cut_in(cut_out: Quantity, before: Mapping[str, Any]) -> None:
    """The switch stops the pump above the pressure at which it starts it."""
    cut_in = before.get("cut_in")
    if cut_in is not None and cut_out.value <= cut_in.value:
        raise FieldProblem(
            echo(cut_out.text),
            f"a pressure above cut_in, {echo(cut_in.text)}",
            "check which of the two is which",
        )


def relief_above_cut_out(relief: Quantity, before: Mapping[str, Any]) -> None:
    """A relief valve opens above the pressure at which the pump stops."""
    cut_out = before.get("cut_out")
    if cut_out is not None and relief.value <= cut_out.value:
        raise FieldProblem(
            echo(relief.text),
            f"a pressure above cut_out, {echo(cut_out.text)}",
            "set it between cut-out and the tank's rating",
        )


def dirty_filters_lose_more(dirty: Quantity, before: Mapping[str, Any]) -> None:
    """A filter due for changing loses no less than a clean one."""
    clean = before.get("filters_clean")
    if clean is not None and dirty.value < clean.value:
        raise FieldProblem(
            echo(dirty.text),
            f"no less than filters_clean, {echo(clean.text)}",
            "check which of the two is which",
        )


class Delivery(Table):
    """From the pump to the tank and the taps."""

    stock: Text | None = field('Name of the pipe in the stock, or "open".')
    bore: Bore | None = field("Bore, where the pipe is not from the stock.")
    length: Length | None = field("Length from the pump to the tank.")
    height: Height | None = field("Height of the tank's tee from the usual water level.")
    roughness: Roughness | None = field("Roughness of the wall when new.")
    roughness_fouled: Roughness | None = field("Roughness of the wall after years.")
    fittings: Fittings = table(Fittings, "Its fittings.")
    loss_coefficient: Number | None = field("Head lost in all its fittings, as a multiple of the velocity head.")
    tank: Text | None = field('Name of the tank in the stock, or "open".')
    tank_volume: Volume | None = field("Whole volume of the tank, where it is not from the stock.")
    tank_pressure_rating: Gauge | None = field("The most pressure the tank may hold, from its plate.")
    precharge: Gauge | None = field("Pressure of the air in the empty tank.")
    cut_in: Gauge | None = field("Pressure at which the switch starts the pump.")
    cut_out: Annotated[Gauge | None, Rule(cut_out_above_cut_in)] = field("Pressure at which the switch stops it.")
    tap_height: Height | None = field("Height of the highest tap from the usual water level.")
    filters_clean: PressureLoss | None = field("Pressure lost in the filters when clean, at the flow needed.")
    filters_dirty: Annotated[PressureLoss | None, Rule(dirty_filters_lose_more)] = field(
        "Pressure lost in them when they are due for changing."
    )
    flow_control: FlowOrOpen | None = field("Flow that a flow control valve holds.")
    relief: Annotated[Gauge | None, Rule(relief_above_cut_out)] = field("Pressure at which the relief valve opens.")
    pressure_rating: Gauge | None = field("Pressure the pipe may stand at for years.")
    sunlit: bool | None = field("Whether the pipe lies in the sun.")
    buried: bool | None = field("Whether the pipe is buried.")
    trench_depth: Length | None = field("Earth over it where it is buried, and lies least deep.")
    heater_volume: Volume | None = field("Water that the heater holds, where there is one.")
    control: ControlName | None = field("What starts and stops the pump; a pressure switch where not given.")
    controller: Controller = table(Controller, "A controller in place of the pressure switch.")
    store: Store = table(Store, "The open store that the pump fills, and the booster that draws from it.")


class Holding(Table):
    """What keeps the water from running back."""

    arrangement: Literal["foot valve only", "foot valve and check at pump", "check at pump only", "flooded"] | None = (
        field("Which valve holds what when the pump stands.")
    )
    foot_valve_opens: YesNoUnknown | None = field(
        "Whether the foot valve can be opened from the shore: by a cord, a bypass, or by lifting it."
    )
    priming_tee: YesNoUnknown | None = field("Whether there is a tee with a plug to fill the line by.")
    gauge: Literal["compound", "pressure", "vacuum", "none", "unknown"] | None = field("Gauge at the suction port.")


def counted(number: int, word: str) -> str:
    """A number of things in words."""
    return f"{number} {word}" if number == 1 else f"{number} {word}s"
