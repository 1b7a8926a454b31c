"""The walk from lake to tap, written a second time, in scalars, from docs/reference/formulas.md alone.

It shares no line with the engine, so that where the two differ, one of them is wrong. `evaluate` works one
job; `random_job` makes one up; `python benchmarks/plain.py` shows check values beside its own and the time
of a point. Section numbers are those of the page. Everything is SI; heads are metres of the water flowing.
"""

from __future__ import annotations

import math
import random
import statistics
import sys
import time
from bisect import bisect_right
from collections.abc import Callable, Sequence
from itertools import pairwise
from typing import Any

from scipy.interpolate import PchipInterpolator  # type: ignore[import-untyped,unused-ignore]
from scipy.optimize import brentq  # type: ignore[import-untyped,unused-ignore]

Job = dict[str, Any]
Block = dict[str, list[float]]

STANDARD_GRAVITY = 9.80665  # m/s2; published: CGPM 1901, resolution 2
STANDARD_ATMOSPHERE = 101325.0  # Pa; published: US Standard Atmosphere 1976, sea level
ICE_POINT = 273.15  # K; published: the definition of the degree Celsius
FOOT = 0.3048  # m; published: the international foot
INCH = FOOT / 12.0
POUND = 0.45359237  # kg; published: the international pound
PSI = POUND * STANDARD_GRAVITY / INCH**2

TWO_G = 2.0 * STANDARD_GRAVITY
LINES = (False, True)  # fouled? clean first


# 1 Lake


def density(temperature: float) -> float:
    """Density of water [kg/m3] at a temperature [K]. Source: Tanaka and others, Metrologia 38 (2001)."""
    t = temperature - ICE_POINT
    return 999.974950 * (1.0 - (t - 3.983035) ** 2 * (t + 301.797) / (522528.9 * (t + 69.34881)))


def dynamic_viscosity(temperature: float) -> float:
    """Dynamic viscosity of water [Pa s] at a temperature [K]. Source: IAPWS SR6-08 (2011), 0.1 MPa."""
    # published: the four coefficients and exponents of that equation; 300 K is its reference temperature
    terms = ((280.68, -1.9), (511.45, -7.7), (61.131, -19.6), (0.45903, -40.0))
    return 1e-6 * sum(a * math.pow(temperature / 300.0, b) for a, b in terms)


def vapour_pressure(temperature: float) -> float:
    """Absolute pressure [Pa] at which water boils at a temperature [K]. Source: IAPWS-IF97, equation 30."""
    if not 273.15 <= temperature <= 647.096:  # published: range of the equation
        return math.nan
    # published: IAPWS-IF97, table 34
    n1, n2, n3, n4, n5 = (
        0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.12020824702470e5, -0.32325550322333e7
    )  # fmt: skip
    n6, n7, n8, n9, n10 = (
        0.14915108613530e2, -0.48232657361591e4, 0.40511340542057e6, -0.23855557567849, 0.65017534844798e3
    )  # fmt: skip
    theta = temperature + n9 / (temperature - n10)
    a = theta * theta + n1 * theta + n2
    b = n3 * theta * theta + n4 * theta + n5
    c = n6 * theta * theta + n7 * theta + n8
    return 1e6 * (2.0 * c / (-b + math.sqrt(b * b - 4.0 * a * c))) ** 4


def atmosphere(elevation: float) -> float:
    """Absolute pressure of the standard air [Pa] at an elevation [m]. Source: US Standard Atmosphere 1976."""
    # published: radius of the earth, sea-level temperature, lapse and hydrostatic constant of that standard
    geopotential = 6356766.0 * elevation / (6356766.0 + elevation)
    warmth = 288.15 / (288.15 - 0.0065 * geopotential)
    return STANDARD_ATMOSPHERE * math.pow(warmth, -34.163195 / 6.5)


class Case:
    """What holds while one flow is found: a day, a line clean or fouled, and a pressure in the tank."""

    def __init__(self, job: Job, day: int, fouled: bool, tank_pressure: float) -> None:
        days, faults, site = job["days"], job["faults"], job["site"]
        self.day, self.fouled, self.tank_pressure = day, fouled, tank_pressure
        temperature = days["temperature"][day]
        self.level: float = days["level"][day] + faults["level_offset"]
        self.density = density(temperature)
        self.viscosity = dynamic_viscosity(temperature)
        self.weight = self.density * STANDARD_GRAVITY  # Pa a metre of head
        air = atmosphere(site["elevation"]) * (1.0 - site["weather"])
        self.atmosphere_head = air / self.weight
        self.vapour_head = vapour_pressure(temperature) / self.weight
        dirt = days["dirt"][day] if fouled else 0.0
        self.blocked: float = 1.0 - (1.0 - dirt) * (1.0 - faults["blocked"])


def running_cases(job: Job) -> list[Case]:
    """Every running case: day, then line, then end."""
    ends = (job["delivery"]["cut_in"], job["delivery"]["cut_out"], 0.0)
    days = range(len(job["days"]["level"]))
    return [Case(job, day, fouled, end) for day in days for fouled in LINES for end in ends]


# 2 Place


def inlet_top_height(stand: Job) -> float:
    """Height of the top of the inlet above the job's zero [m]."""
    height: float = -stand["depth"] + stand["frame"] + stand["riser"] + stand["inlet_rise"] - stand["sink"]
    return height


def place(job: Job) -> Block:
    """The block `place`, one value a day."""
    site, stand, days = job["site"], job["stand"], job["days"]
    pump_height = job["pump"]["height"]
    levels = [level + job["faults"]["level_offset"] for level in days["level"]]
    air = atmosphere(site["elevation"]) * (1.0 - site["weather"])
    count = len(levels)
    return {
        "lift": [pump_height - level for level in levels],
        # 1000 kg/m3 is the page's: the loss is told in metres of ordinary water, whatever the day
        "barometric_loss": [(STANDARD_ATMOSPHERE - air) / (1000.0 * STANDARD_GRAVITY)] * count,
        "above_flood": [pump_height - (max(site["flood"], day) + site["waves"]) for day in levels_of(job)],
        "bed_clearance": [stand["frame"] + stand["riser"] - stand["sink"]] * count,
        "ice_clearance": [
            level - inlet_top_height(stand) - ice for level, ice in zip(levels, days["ice"], strict=True)
        ],
        "ice": list(days["ice"]),
        "tap_static": [
            density(warmth) * STANDARD_GRAVITY * (max(job["taps"]["height"]) - job["delivery"]["height"])
            for warmth in days["temperature"]
        ],
    }


# 3 Losses


def bore_area(bore: float) -> float:
    """Area of a round bore [m2]."""
    return math.pi * bore * bore / 4.0


def turbulent_friction(reynolds: float, relative_roughness: float) -> float:
    """Colebrook's friction factor, by Newton's method on F + ln(F + X1) = X2.

    The left side rises and is hollow downward, so from a start below the root each step lands below it again:
    no step can overshoot, and the steps end when they no longer move F. Source of X1, X2: Clamond (2009).
    """
    X1 = relative_roughness * reynolds * 0.123968186335417556
    X2 = math.log(reynolds) - 0.779397488455682028
    F = X2 - math.log(X1 + X2)
    for _ in range(50):  # ours: four are enough; the count only bounds a mistake
        total = F + X1
        step = (F + math.log(total) - X2) * total / (1.0 + total)
        F -= step
        if abs(step) <= 3e-8 * F:  # ours: the error left is under half its square, less than a rounding
            break
    return (1.151292546497022842 / F) ** 2


def friction_factor(reynolds: float, relative_roughness: float) -> float:
    """Darcy's friction factor: 64/Re below 2000, Colebrook above 4000, straight in ln Re between."""
    reynolds = max(reynolds, 1e-9)  # ours, the page's: still water
    if reynolds <= 2000.0:
        return 0.032 * (2000.0 / reynolds)
    if reynolds >= 4000.0:
        return turbulent_friction(reynolds, relative_roughness)
    turbulent = turbulent_friction(4000.0, relative_roughness)
    w = math.log(reynolds / 2000.0) / math.log(2.0)
    return 0.032 + w * (turbulent - 0.032)


class Pipe:
    """A pipe full of one water: the head lost along it, and in its fittings, as functions of flow."""

    def __init__(
        self,
        bore: float,
        length: float,
        roughness: float,
        kinematic_viscosity: float,
        coefficient: float = 0.0,  # of all fittings, on the velocity in the pipe
    ) -> None:
        self.area = bore_area(bore)
        self.reynolds_per_flow = bore / (self.area * kinematic_viscosity)
        self.relative_roughness = roughness / bore
        self.slenderness = length / bore
        self.coefficient = coefficient

    def velocity(self, flow: float) -> float:
        return flow / self.area

    def velocity_head(self, flow: float) -> float:
        V = flow / self.area
        return V * V / TWO_G

    def along(self, flow: float) -> float:
        """Source: Darcy and Weisbach."""
        f = friction_factor(self.reynolds_per_flow * flow, self.relative_roughness)
        return f * self.slenderness * self.velocity_head(flow)

    def fitting(self, flow: float) -> float:
        return self.coefficient * self.velocity_head(flow)


def narrowing(o: float) -> float:
    """Loss coefficient of a pipe left open by a share o where it is narrowest."""
    return math.inf if o == 0.0 else (1.0 / (o * (0.62 + 0.38 * o**3)) - 1.0) ** 2


class Losses:
    """Head lost in each piece on the way [m], as functions of flow [m3/s], in one case."""

    def __init__(self, job: Job, case: Case) -> None:
        stand, suction, delivery = job["stand"], job["suction"], job["delivery"]
        roughness = "roughness_fouled" if case.fouled else "roughness"
        nu = case.viscosity / case.density
        length = (suction["bed_length"] + suction["bank_length"]) * (1.0 + suction["along"])
        fittings = suction["coefficient"] + narrowing(job["faults"]["line_opening"])
        delivery_fittings = delivery["coefficient"] + narrowing(job["faults"]["delivery_opening"])
        self.riser_pipe = Pipe(stand["riser_bore"], stand["riser"], suction[roughness], nu)
        self.line_pipe = Pipe(suction["bore"], length, suction[roughness], nu, fittings)
        self.delivery_pipe = Pipe(delivery["bore"], delivery["length"], delivery[roughness], nu, delivery_fittings)
        clear = stand["screen_area"] * stand["screen_structure"] * (1.0 - case.blocked)
        self.face_area: float = clear
        self.mesh_area: float = clear * stand["screen_open"]
        self.valve_coefficient: float = stand["valve_coefficient"]
        self.valve_opening: float = job["faults"]["valve_opening"]
        self.full_lift_velocity: float = stand["valve_lift_factor"] / math.sqrt(case.density)
        self.opening_head: float = stand["opening_pressure"] / case.weight

    def screen(self, flow: float) -> float:
        if flow == 0.0:
            return 0.0
        if self.mesh_area == 0.0:
            return math.inf  # ours: a screen wholly blocked passes nothing
        V = flow / (0.60 * self.mesh_area)  # 0.60: the page's discharge coefficient
        return V * V / TWO_G

    def valve(self, flow: float) -> float:
        if self.valve_coefficient == 0.0:
            return self.opening_head
        if self.valve_opening == 0.0:
            return math.inf  # ours: a valve stuck shut passes nothing
        V = max(self.riser_pipe.velocity(flow), self.full_lift_velocity)
        return max(self.valve_coefficient * V * V / TWO_G / self.valve_opening**2, self.opening_head)

    def riser(self, flow: float) -> float:
        return self.riser_pipe.along(flow)

    def line(self, flow: float) -> float:
        return self.line_pipe.along(flow)

    def fitting(self, flow: float) -> float:
        return self.line_pipe.fitting(flow)

    def suction(self, flow: float) -> float:
        return self.screen(flow) + self.valve(flow) + self.riser(flow) + self.line(flow) + self.fitting(flow)

    def delivery(self, flow: float) -> float:
        return self.delivery_pipe.along(flow) + self.delivery_pipe.fitting(flow)


# 4 Flow


def straight_between(x: float, xs: Sequence[float], ys: Sequence[float]) -> float:
    """Straight lines through points, held at the first and last value outside them."""
    i, share = bracket(x, xs)
    return ys[i] if share == 0.0 else ys[i] + share * (ys[i + 1] - ys[i])


def bracket(x: float, xs: Sequence[float]) -> tuple[int, float]:
    """The point at or below x and the share of the way to the next one, 0 outside the points."""
    if x <= xs[0]:
        return 0, 0.0
    if x >= xs[-1]:
        return len(xs) - 1, 0.0
    i = bisect_right(xs, x) - 1
    return i, (x - xs[i]) / (xs[i + 1] - xs[i])


class ShapeKeepingCubic:
    """The cubic through points that turns nowhere they do not.

    Source: Fritsch and Carlson (1980); slopes inside, Fritsch and Butland (1984); three-point slopes at the
    ends, cut back to keep shape.
    """

    def __init__(self, xs: Sequence[float], ys: Sequence[float]) -> None:
        self.xs = [float(x) for x in xs]
        self.ys = [float(y) for y in ys]
        h = [b - a for a, b in pairwise(self.xs)]
        rise = [(b - a) / w for (a, b), w in zip(pairwise(self.ys), h, strict=True)]
        slope = self._slopes(h, rise)
        self.first = slope[:-1]
        pieces = list(zip(pairwise(slope), rise, h, strict=True))
        self.second = [(3.0 * m - 2.0 * a - b) / w for (a, b), m, w in pieces]
        self.third = [(a + b - 2.0 * m) / (w * w) for (a, b), m, w in pieces]

    @staticmethod
    def _slopes(h: list[float], rise: list[float]) -> list[float]:
        if len(rise) == 1:
            return [rise[0], rise[0]]
        slope = [end_slope(h[0], h[1], rise[0], rise[1])]
        for k in range(1, len(rise)):
            before, after = rise[k - 1], rise[k]
            if before * after <= 0.0:
                slope.append(0.0)
                continue
            w1, w2 = 2.0 * h[k] + h[k - 1], h[k] + 2.0 * h[k - 1]
            slope.append((w1 + w2) / (w1 / before + w2 / after))
        slope.append(end_slope(h[-1], h[-2], rise[-1], rise[-2]))
        return slope

    def __call__(self, x: float) -> float:
        x = min(max(x, self.xs[0]), self.xs[-1])
        i = min(bisect_right(self.xs, x), len(self.xs) - 1) - 1
        t = x - self.xs[i]
        return self.ys[i] + t * (self.first[i] + t * (self.second[i] + t * self.third[i]))


def end_slope(near: float, far: float, near_rise: float, far_rise: float) -> float:
    """Slope at an end, from the parabola through its three points, cut back where that would turn."""
    slope = ((2.0 * near + far) * near_rise - near * far_rise) / (near + far)
    if slope * near_rise <= 0.0:
        return 0.0
    if near_rise * far_rise <= 0.0 and abs(slope) > 3.0 * abs(near_rise):
        return 3.0 * near_rise
    return slope


class CentrifugalPump:
    """One centrifugal pump, with its faults."""

    def __init__(self, job: Job) -> None:
        pump, faults = job["pump"], job["faults"]
        self.curve = ShapeKeepingCubic(pump["flow"], pump["head"])
        self.required_flow: list[float] = list(pump.get("required_flow") or [])
        self.required_head: list[float] = list(pump.get("required") or [])
        self.speed: float = faults["speed"]
        self.share = (1.0 - faults["air"]) * self.speed  # of the curve's flow
        self.strength: float = (1.0 - faults["wear"]) * self.speed**2  # of the curve's head
        self.run_out: float = self.curve.xs[-1] * self.share

    def coordinate(self, flow: float) -> float:
        """Flow as the curve knows it. Held at run-out, which a rounding could pass."""
        return min(flow / self.share, self.curve.xs[-1]) if self.share > 0.0 else 0.0

    def head(self, flow: float) -> float:
        return self.strength * self.curve(self.coordinate(flow))

    def required(self, flow: float) -> float:
        x = self.coordinate(flow)
        if not self.required_flow or x > self.required_flow[-1]:
            return math.nan
        return self.speed**2 * straight_between(x, self.required_flow, self.required_head)

    def fall(self) -> float:
        return min(a - b for a, b in pairwise(self.curve.ys))


class JetPump:
    """One jet pump, a table of flow by lift and pressure, with its faults."""

    def __init__(self, job: Job) -> None:
        pump, faults = job["pump"], job["faults"]
        self.lifts: list[float] = list(pump["lifts"])
        self.pressures: list[float] = list(pump["pressures"])
        self.flows: list[list[float]] = [list(row) for row in pump["flows"]]
        self.factor: float = (1.0 - faults["air"]) * (1.0 - faults["wear"]) * faults["speed"] * faults["nozzle"]
        self.run_out = self.factor * max(max(row) for row in self.flows)

    def row(self, lift: float) -> list[float]:
        """Flows by pressure at one lift: straight lines between rows, held at the first and last."""
        i, share = bracket(lift, self.lifts)
        if share == 0.0:
            return self.flows[i]
        return [a + share * (b - a) for a, b in zip(self.flows[i], self.flows[i + 1], strict=True)]

    def flow(self, lift: float, pressure: float) -> float:
        """What the table gives, before the faults."""
        i, share = bracket(pressure, self.pressures)
        row = self.row(lift)
        return row[i] if share == 0.0 else row[i] + share * (row[i + 1] - row[i])

    def dead_pressure(self, lift: float) -> float:
        """Straight lines between the rows' own dead pressures [Pa]; nan where a row of the two never comes to rest."""
        dead = [next((p for p, q in zip(self.pressures, row, strict=True) if q <= 0.0), math.nan) for row in self.flows]
        i, share = bracket(lift, self.lifts)
        return dead[i] if share == 0.0 else dead[i] + share * (dead[i + 1] - dead[i])


Pump = CentrifugalPump | JetPump


def pump_of(job: Job) -> Pump:
    """The job's pump, made once."""
    return JetPump(job) if job["pump"]["kind"] == "jet" else CentrifugalPump(job)


class Circuit:
    """Lake, line, pump and tank in one case: what a flow leaves over, and the flow that leaves nothing."""

    def __init__(self, job: Job, pump: Pump, case: Case) -> None:
        self.pump, self.case = pump, case
        self.losses = Losses(job, case)
        self.lift: float = job["pump"]["height"] - case.level
        self.rise_from_lake: float = job["delivery"]["height"] - case.level
        self.rise_from_pump: float = job["delivery"]["height"] - job["pump"]["height"]
        self.static: float = self.rise_from_lake + case.tank_pressure / case.weight
        # The jet's table was measured under the sea-level standard; thinner air acts as more lift.
        self.missing_air: float = STANDARD_ATMOSPHERE / case.weight - case.atmosphere_head
        self.refused_by = 0.0
        self.held: float = job["delivery"]["flow_control"]
        self.left_over: Callable[[float], float] = (
            self._left_over_jet if isinstance(pump, JetPump) else self._left_over_centrifugal
        )

    def system_head(self, flow: float) -> float:
        return self.static + self.losses.suction(flow) + self.losses.delivery(flow)

    def equivalent_lift(self, flow: float) -> float:
        return self.lift + self.losses.suction(flow) + self.missing_air

    def discharge_pressure(self, flow: float) -> float:
        return self.case.tank_pressure + self.case.weight * (self.rise_from_pump + self.losses.delivery(flow))

    def _left_over_centrifugal(self, flow: float) -> float:
        assert isinstance(self.pump, CentrifugalPump)
        return self.pump.head(flow) - self.system_head(flow)

    def _left_over_jet(self, flow: float) -> float:
        assert isinstance(self.pump, JetPump)
        given = self.pump.flow(self.equivalent_lift(flow), self.discharge_pressure(flow))
        return self.pump.factor * given - flow

    def flow(self) -> float:
        """The flow the pump settles at [m3/s]."""
        if self.left_over(0.0) <= 0.0:
            return 0.0
        most = min(self.pump.run_out, self.held)
        at_most = self.left_over(most)
        if at_most == -math.inf:
            return 0.0  # ours: the way is shut, any flow at all would lose everything
        root = most if at_most >= 0.0 else solved(self.left_over, most)
        if isinstance(self.pump, JetPump):
            past = self.table_room(self.pump, root)
            if min(past) < 0.0:
                self.refused_by = min(past)
                return 0.0
        return root

    def table_room(self, pump: JetPump, q: float) -> tuple[float, float]:
        """What is left of a jet's table at a flow, in lift and in pressure [m]."""
        pressure = pump.pressures[-1] - self.discharge_pressure(q)
        return pump.lifts[-1] - self.equivalent_lift(q), pressure / self.case.weight


def solved(function: Callable[[float], float], most: float) -> float:
    """The root between 0 and `most` of a function that falls through zero, to the last digits."""
    root: float = brentq(function, 0.0, most, xtol=1e-16, rtol=4.0 * sys.float_info.epsilon)
    value = function(root)
    span = 1e-6 * root  # ours: wide enough that rounding does not drown the slope
    slope = (function(root + span) - value) / span if value != 0.0 else 0.0
    if slope >= 0.0:
        return root
    better = root - value / slope
    return better if 0.0 <= better <= most and abs(function(better)) < abs(value) else root


# 5 Stand


def cover_by_velocity(velocity: float) -> float:
    """Cover asked by the velocity in the inlet's mouth [m]; infinite above 5 ft/s. Source: UFC 4-832-01N."""
    # published: that table, ft/s and ft
    if velocity > 5.0 * FOOT:
        return math.inf
    return FOOT * straight_between(velocity / FOOT, (2.0, 3.0, 4.0, 5.0), (1.0, 1.5, 2.0, 2.6))


def cover_vortex(velocity: float, bore: float) -> float:
    """Cover against a vortex [m]. Source: ANSI/HI 9.8."""
    froude = velocity / math.sqrt(STANDARD_GRAVITY * bore)
    return bore + 2.3 * froude * bore


# 6 Line


def collapse_pressure(suction: Job, modulus: float) -> float:
    """Pressure from outside over inside that folds the oval pipe in [Pa]. Source: Levy; PE handbook for the oval."""
    q, nu = suction["ovality"], suction["poisson"]
    mean_diameter = suction["outside"] - suction["wall"]
    out_of_round: float = ((1.0 - q) / (1.0 + q) ** 2) ** 3
    return out_of_round * 2.0 * modulus / (1.0 - nu * nu) * (suction["wall"] / mean_diameter) ** 3


def line_pressure(case: Case, suction_lift: float, velocity: float) -> float:
    """Gauge pressure at the pump's inlet while it runs [Pa], no lower than where the water boils."""
    head = -(suction_lift + velocity * velocity / TWO_G)
    return case.weight * max(head, case.vapour_head - case.atmosphere_head)


def vacuum_use(suction: Job, standing_pressure: float, running_pressure: float) -> float:
    """Share of the vacuum that folds the line that it is under: what stands is long, what running adds is short."""
    stands = max(-standing_pressure, 0.0)
    adds = max(standing_pressure - running_pressure + min(-standing_pressure, 0.0), 0.0)
    long, short = (collapse_pressure(suction, suction[name]) for name in ("long_modulus", "short_modulus"))
    most = max(-standing_pressure, -running_pressure, 0.0)
    return max(stands / long + adds / short, printed_use(most, suction["vacuum_rating"]))


def printed_use(most: float, rating: float) -> float:
    """Share of a printed vacuum; no vacuum uses nothing, and any vacuum is past a rating of none."""
    if most == 0.0:
        return 0.0
    return most / rating if rating > 0.0 else math.inf


# 8 Delivery


def rest_pressure(circuit: Circuit) -> float:
    """Gauge pressure at the tank's tee when the flow dies [Pa]."""
    pump, weight = circuit.pump, circuit.case.weight
    if isinstance(pump, JetPump):
        return pump.dead_pressure(circuit.equivalent_lift(0.0)) - weight * circuit.rise_from_pump
    return weight * (pump.head(0.0) - circuit.rise_from_lake - circuit.losses.valve(0.0))


def fill_time(job: Job, pump: Pump, day: int) -> float:
    """Time the pump takes from cut-in to cut-out, nothing drawn [s]; infinite where it stalls on the way."""
    delivery = job["delivery"]
    air = atmosphere(job["site"]["elevation"])
    half = (delivery["cut_out"] - delivery["cut_in"]) / 2.0
    middle = (delivery["cut_out"] + delivery["cut_in"]) / 2.0
    reach = math.sqrt(3.0 / 5.0)  # published: three-point Gauss-Legendre nodes and weights
    if Circuit(job, pump, Case(job, day, False, delivery["cut_out"])).flow() == 0.0:
        return math.inf
    total = 0.0
    for node, weight in ((-reach, 5.0 / 9.0), (0.0, 8.0 / 9.0), (reach, 5.0 / 9.0)):
        pressure = middle + node * half
        flow = Circuit(job, pump, Case(job, day, False, pressure)).flow()
        if flow == 0.0:
            return math.inf
        total += weight * half * (delivery["precharge"] + air) / (pressure + air) ** 2 / flow
    return total * float(delivery["tank_volume"])


def levels_of(job: Job) -> list[float]:
    """Level of each day with its offset [m]."""
    return [level + job["faults"]["level_offset"] for level in job["days"]["level"]]


# 9 Shut-off


def shut_off(job: Job, pump: Pump) -> Block:
    """The block `shut_off`, one value a day."""
    delivery, drop = job["delivery"], job["delivery"]["height"] - job["pump"]["height"]
    tank, low = [], []
    for day in range(len(job["days"]["level"])):
        circuit = Circuit(job, pump, Case(job, day, False, 0.0))
        tank.append(min(rest_pressure(circuit), delivery["relief"]))
        low.append(tank[-1] + circuit.case.weight * drop)
    return {"at_tank": tank, "at_pump": low}


# 10 Taps


def tap_pressure(job: Job, case: Case, branch: int) -> float:
    """Gauge pressure at one branch's highest tap while it runs, the tank at cut-in [Pa]."""
    taps, delivery = job["taps"], job["delivery"]
    demand = job["days"]["demand"][case.day]
    nu = case.viscosity / case.density
    line = Pipe(taps["bore"][branch], taps["length"][branch], taps["roughness"][branch], nu)
    head = taps["height"][branch] - delivery["height"] + line.along(taps["flow"][branch] * demand)
    share = taps["filtered"][branch] * demand / job["need"]["flow"]
    told = delivery["filters_dirty" if case.fouled else "filters_clean"]
    lost: float = told * max(share, share**2)
    return float(delivery["cut_in"]) - case.weight * head - lost


def taps(job: Job) -> Block:
    """The block `taps`: of every running case the branch that lacks most, the first of equals."""
    rows = job["taps"]
    found: Block = {"pressure": [], "least": [], "easy": [], "which": []}
    for case in running_cases(job):
        pressures = [tap_pressure(job, case, n) for n in range(len(rows["height"]))]
        spare = [
            (p - least) / (easy - least) for p, least, easy in zip(pressures, rows["least"], rows["easy"], strict=True)
        ]
        worst = spare.index(min(spare))
        found["pressure"].append(pressures[worst])
        found["least"].append(rows["least"][worst])
        found["easy"].append(rows["easy"][worst])
        found["which"].append(float(worst))
    return found


# 11 Standing


def standing(job: Job) -> Block:
    """The block `standing`: one value a day of what the day moves, one value of what is built."""
    stand, suction, holding = job["stand"], job["suction"], job["holding"]
    pump_height, delivery = job["pump"]["height"], job["delivery"]
    end = -stand["depth"] + stand["frame"] - stand["sink"]
    pressures, ends = [], []
    for level, warmth in zip(levels_of(job), job["days"]["temperature"], strict=True):
        weight = density(warmth) * STANDARD_GRAVITY
        hanging = -(pump_height - level) * weight
        if holding["at_pump"]:
            pressure = max(hanging, 0.0) + job["faults"]["airtight"] * (hanging - max(hanging, 0.0))
        elif holding["at_inlet"]:
            pressure = delivery["cut_out"] + (delivery["height"] - pump_height) * weight
        else:
            pressure = max(hanging, 0.0)
        pressures.append(pressure)
        ends.append(pressure + (pump_height - end) * weight)
    return {
        "pressure": pressures,
        "end_pressure": ends,
        "allowed_pressure": [suction["allowed_pressure"]],
        "holders": [holding["at_inlet"] + holding["at_pump"]],
        "flooded": [holding["flooded"]],
        "shut_by": [suction["valves"] * (1.0 - stand["foot_valve"])],
        "spring": [stand["opening_pressure"] * stand["seats"]],
        "hangs": [float(stand["hangs"] == 1.0)],
    }


# 12 Route


def route(job: Job) -> Block:
    """The block `route`, one value a day."""
    suction, ices, levels = job["suction"], job["days"]["ice"], levels_of(job)
    buried_to, count = suction["buried_to"], len(ices)
    pocket = bore_area(suction["bore"]) * suction["pocket_length"] * (1.0 + suction["along"])
    return {
        "lifts": [float(not job["pump"]["height"] - level <= 0.0) for level in levels],
        "slope": [suction["slope"]] * count,
        "joints": [suction["joints"]] * count,
        "pocket": [pocket] * count,
        "buried": [level - ice - buried_to for level, ice in zip(levels, ices, strict=True)],
        "freezes": [float(ice != 0.0 and buried_to != -math.inf) for ice in ices],
    }


# 13 Facts of the suction line


# The page's, which says of each number where it is from: modulus at 73 F of 50 years and of 12 hours [psi].
POLYETHYLENE = {"PE2": (22000.0, 48000.0), "PE3": (28000.0, 60000.0), "PE4": (29000.0, 63000.0)}
RIGID_PVC = ("PVC 1120", "PVC 12454")
METALS = {"copper": (117e9, 0.34), "galvanized steel": (200e9, 0.29)}  # Pa, -
PVC_HALF_HOUR, PVC_FIFTY_YEARS = 400000.0, 140000.0  # psi
HALF_HOURS = 2.0 * 24.0 * 365.25 * 50.0  # in 50 years


def moduli(compound: str, sunlit: bool) -> tuple[float, float, float]:
    """Modulus of 50 years and of 12 hours [Pa], as warm as the wall gets, and Poisson's ratio."""
    if compound in METALS:
        modulus, poisson = METALS[compound]
        return modulus, modulus, poisson
    if compound in RIGID_PVC:
        share = math.log(24.0) / math.log(HALF_HOURS)  # 12 hours are 24 half hours
        long, short = PVC_FIFTY_YEARS, PVC_HALF_HOUR + share * (PVC_FIFTY_YEARS - PVC_HALF_HOUR)
        stiffness, poisson = (0.88 if sunlit else 1.0), 0.38
    else:
        long, short = POLYETHYLENE.get(compound[:3], (math.nan, math.nan))
        stiffness, poisson = (0.73 if sunlit else 1.0), 0.45
    return long * stiffness * PSI, short * stiffness * PSI, poisson


def rating_share(compound: str, sunlit: bool) -> float:
    """Share of its rating that a pipe keeps, as warm as its wall gets; hose goes as PVC."""
    if compound in METALS or not sunlit:
        return 1.0
    return 0.8 if compound.startswith("PE") else 0.62


def wall_facts(pipe: Job, sunlit: bool | None, given: Job) -> Job:
    """What the wall of a line decides: pipe as stock has it, sun as the job says it, and the ratings the job gives."""
    warm, compound = sunlit is not False, pipe["compound"]
    share = rating_share(compound, warm)
    if math.isnan(pipe["vacuum_rating"]):
        long, short, poisson = moduli(compound, warm)
        vacuum = math.inf
    else:
        long, short, poisson = math.inf, math.inf, 0.0
        vacuum = share * pipe["vacuum_rating"]
    if "vacuum_rating" in given:
        long, short, vacuum = math.inf, math.inf, given["vacuum_rating"]
    halved = 0.5 if pipe["threaded"] and compound in RIGID_PVC else 1.0
    return {
        "outside": pipe["outside"],
        "wall": pipe["wall"],
        "ovality": 0.05 if pipe["coiled"] else 0.01,
        "poisson": poisson,
        "long_modulus": long,
        "short_modulus": short,
        "vacuum_rating": vacuum,
        "allowed_pressure": given.get("pressure_rating", pipe["rating"] * share * halved),
    }


Points = Sequence[tuple[float, float]]  # length along the line toward the pump, and height [m]


def least_slope(points: Points, lowest: float) -> float:
    """Least rise over length of the parts that come out of the lowest water [m/m]; nan where none does."""
    parts = [(a, b) for a, b in pairwise(points) if max(a[1], b[1]) > lowest and b[0] != a[0]]
    return min(((b[1] - a[1]) / (b[0] - a[0]) for a, b in parts), default=math.nan)


def pocket_length(points: Points) -> float:
    """Length that lies higher than some place nearer the pump [m]: gone back from the end, against the lowest so far.

    nan where nobody knows how high some place lies.
    """
    if any(math.isnan(height) for _, height in points):
        return math.nan
    floor, total = math.inf, 0.0
    for (start, low), (end, high) in reversed(list(pairwise(points))):
        floor = min(floor, high)
        above, below = max(low, high) - floor, min(low, high) - floor
        if above > 0.0:
            total += (end - start) * (1.0 if below >= 0.0 else above / (above - below))
    return total


def depth_at(soundings: Points, out: float) -> float:
    """Depth of the bed so far out [m], nan past the last sounding."""
    distances = [distance for distance, _ in soundings]
    if not distances or not distances[0] <= out <= distances[-1]:
        return math.nan
    return straight_between(out, distances, [depth for _, depth in soundings])


def bed_line(soundings: Points, stand: float) -> list[tuple[float, float]]:
    """The bed from the stand to the water's edge, by distances out and depths."""
    nearer = [(stand - out, -depth) for out, depth in reversed(soundings) if out < stand]
    return [(0.0, -depth_at(soundings, stand)), *nearer]


def ground_line(soundings: Points, ground: Points, distance: float, height: float) -> list[tuple[float, float]]:
    """The bed from the furthest sounding, and the ground up to the pump, by distances from the water's edge."""
    below = [(-out, -depth) for out, depth in reversed(soundings)]
    return [*below, *(point for point in ground if point[0] < distance), (distance, height)]


# 14 Margins


def margins(blocks: dict[str, Block], limits: Job) -> dict[str, float]:
    """The worst margin of each check of line, standing and route; infinite where no case asks it."""
    line, stands, way = blocks["line"], blocks["standing"], blocks["route"]
    spring, flooded, holders = stands["spring"][0], stands["flooded"][0], stands["holders"][0]
    allowed = stands["allowed_pressure"][0]
    slope, joints, pocket = way["slope"][0], way["joints"][0], way["pocket"][0]
    lifts = any(way["lifts"])

    def worst(values: Sequence[float]) -> float:
        return min(values, default=math.inf)

    def asked(here: bool, margin: float) -> float:
        return margin if here else math.inf

    return {
        "line bears its vacuum": worst(
            [(1.0 / use - limits["collapse_least"]) / limits["collapse_comfort"] for use in line["vacuum_use"] if use]
        ),
        "line bears its pressure": worst(
            [(allowed - end) / (limits["pressure_comfort"] * allowed) for end in stands["end_pressure"]]
        ),
        "foot valve seats as mounted": asked(
            stands["hangs"][0] == 0.0, (spring - limits["spring_least"]) / limits["spring_comfort"]
        ),
        "valves hold the water": asked(flooded != 1.0, (holders - limits["holders_least"]) / limits["holders_comfort"]),
        "flooded suction can be shut": asked(
            flooded != 0.0, 1.0 if stands["shut_by"][0] >= limits["shutters_least"] else -1.0
        ),
        "line rises to the pump": asked(lifts, slope / limits["slope_comfort"]),
        "no joint above the water": asked(lifts, (limits["joints_most"] - joints) / limits["joints_comfort"]),
        "line fills without pockets": (limits["pocket_most"] - pocket) / limits["pocket_comfort"],
        "frozen band is buried": worst(
            [
                buried / limits["buried_comfort"]
                for buried, freezes in zip(way["buried"], way["freezes"], strict=True)
                if freezes
            ]
        ),
    }


# All of it


def running_point(job: Job, pump: Pump, case: Case, standing_pressure: float) -> dict[str, dict[str, float]]:
    """Everything the page asks of one running case; the line's standing pressure is that day's."""
    circuit = Circuit(job, pump, case)
    losses, stand = circuit.losses, job["stand"]
    q = circuit.flow()
    suction_lift = circuit.lift + losses.suction(q)
    velocity, riser_velocity = losses.line_pipe.velocity(q), losses.riser_pipe.velocity(q)
    pressure = line_pressure(case, suction_lift, velocity)
    face_approach = q / losses.face_area if q > 0.0 else 0.0  # ours: still water, even at a face wholly blocked
    if isinstance(pump, JetPump):
        required = math.nan
        room = circuit.refused_by if circuit.refused_by < 0.0 else circuit.table_room(pump, q)[0]
    else:
        required = pump.required(q)
        room = math.inf if circuit.held < pump.run_out else -circuit.left_over(pump.run_out)
    return {
        "lake": {
            "level": case.level,
            "density": case.density,
            "viscosity": case.viscosity / case.density,
            "atmosphere_head": case.atmosphere_head,
            "vapour_head": case.vapour_head,
            "blocked": case.blocked,
        },
        "flow": {
            "flow": q,
            "left_over": circuit.left_over(q),
            "left_at_rest": circuit.left_over(0.0),
            "suction_lift": suction_lift,
            "npsh_available": case.atmosphere_head - case.vapour_head - suction_lift,
            "npsh_required": required,
        },
        "stand": {
            "cover": case.level - inlet_top_height(stand),
            "cover_vortex": cover_vortex(riser_velocity, stand["riser_bore"]),
            "cover_by_velocity": cover_by_velocity(riser_velocity),
            "face_approach": face_approach,
            "face_through": face_approach / stand["screen_open"],
        },
        "line": {
            "velocity": velocity,
            "riser_velocity": riser_velocity,
            "screen_loss": losses.screen(q),
            "valve_loss": losses.valve(q),
            "riser_loss": losses.riser(q),
            "line_loss": losses.line(q),
            "fitting_loss": losses.fitting(q),
            "suction_loss": losses.suction(q),
            "pressure": pressure,
            "vacuum_use": vacuum_use(job["suction"], standing_pressure, pressure),
        },
        "pump": {"head": circuit.system_head(q), "room": room},
        "delivery": {
            "flow": q,
            "wanted": job["need"]["flow"] * job["days"]["demand"][case.day],
            "velocity": losses.delivery_pipe.velocity(q),
            "loss": losses.delivery(q),
            "rest_pressure": rest_pressure(circuit),
        },
    }


def evaluate(job: Job) -> dict[str, Block]:
    """Every block of the page for one job, each name a list over its cases."""
    stands = standing(job)
    return evaluate_flow(job, stands["pressure"]) | {"standing": stands, "route": route(job)}


def evaluate_flow(job: Job, standing_pressures: Sequence[float]) -> dict[str, Block]:
    """The blocks of sections 1 to 10, given the line's standing pressure of each day."""
    pump = pump_of(job)
    points = [running_point(job, pump, case, standing_pressures[case.day]) for case in running_cases(job)]
    blocks: dict[str, Block] = {
        name: {key: [point[name][key] for point in points] for key in points[0][name]} for name in points[0]
    }
    blocks["place"] = place(job)
    blocks["taps"] = taps(job)
    blocks["shut_off"] = shut_off(job, pump)
    blocks["pump"]["fall"] = [math.nan if isinstance(pump, JetPump) else pump.fall()]
    blocks["delivery"]["fill_time"] = [fill_time(job, pump, day) for day in range(len(job["days"]["level"]))]
    return blocks


# Jobs made up


MOODS = ("ordinary", "ordinary", "shut-off", "run-out", "slow")


def random_job(seed: int, kind: str) -> Job:
    """A made-up job, the same for the same seed and kind ("centrifugal" or "jet").

    One in five is near shut-off, one near or at run-out, one so slow that its pipes run between laminar and
    turbulent. Every place and pump here is invented, and every range is ours: wide enough to reach each
    branch of the page, narrow enough that a person could meet it.
    """
    if kind not in ("centrifugal", "jet"):
        raise ValueError(f'kind {kind!r}: expected "centrifugal" or "jet"')
    rng = random.Random(f"{kind} {seed}")
    mood = rng.choice(MOODS)
    job: Job = {
        "site": random_site(rng),
        "days": random_days(rng),
        "stand": random_stand(rng, mood),
        "suction": random_suction(rng, mood),
        "faults": random_faults(rng),
    }
    height = rng.uniform(0.5, 3.5)
    job["pump"] = {"height": height, "kind": kind}
    make = random_jet if kind == "jet" else random_centrifugal
    pump, most_flow, most_head = make(rng, mood)
    if kind == "jet":
        most_head += height
    job["pump"] |= pump
    job["delivery"] = random_delivery(rng, mood, height, most_head)
    job["need"] = {"flow": most_flow * rng.uniform(0.1, 0.9)}
    job["taps"] = random_taps(random.Random(f"taps {kind} {seed}"), job)
    rng = random.Random(f"line {kind} {seed}")
    job["suction"] |= random_wall(rng) | random_lie(rng)
    job["faults"] |= random_openings(random.Random(f"openings {kind} {seed}"))
    job["holding"] = random_holding(rng)
    job["stand"] |= {name: float(rng.random() < 0.5) for name in ("foot_valve", "seats", "hangs")}
    return job


def random_site(rng: random.Random) -> Job:
    return {
        "elevation": rng.choice([0.0, rng.uniform(0.0, 500.0), rng.uniform(0.0, 2500.0)]),
        "weather": rng.uniform(0.0, 0.04),
        "flood": rng.uniform(0.3, 2.5),
        "waves": rng.uniform(0.0, 0.6),
    }


def random_days(rng: random.Random) -> Job:
    count = rng.randint(1, 6)
    spread = rng.choice([0.5, 2.0, 4.0])
    return {
        "level": [max(-4.0, min(2.0, rng.gauss(-0.3, 0.4) * spread)) for _ in range(count)],
        "temperature": [ICE_POINT + rng.uniform(0.2, 28.0) for _ in range(count)],
        "ice": [rng.choice([0.0, 0.0, rng.uniform(0.05, 0.9)]) for _ in range(count)],
        "dirt": [rng.choice([0.0, rng.uniform(0.0, 0.5), rng.uniform(0.0, 0.9)]) for _ in range(count)],
        "demand": [rng.uniform(0.0, 1.5) for _ in range(count)],
    }


def random_stand(rng: random.Random, mood: str) -> Job:
    # (coefficient, lift factor, opening pressure): none, poppet, poppet with spring, hinged, spring alone
    coefficient, lift_factor, opening = rng.choice(
        [
            (0.0, 0.0, 0.0),
            (rng.uniform(7.0, 12.0), 20.0, 0.0),
            (rng.uniform(5.0, 12.0), 20.0, rng.uniform(1000.0, 8000.0)),
            (rng.uniform(1.2, 2.0), 45.0, 0.0),
            (rng.uniform(2.0, 6.0), 0.0, rng.uniform(1000.0, 5000.0)),
        ]
    )
    return {
        "depth": rng.uniform(3.0, 9.0),
        "frame": rng.uniform(0.2, 0.7),
        "riser": rng.uniform(0.2, 1.5),
        "inlet_rise": rng.uniform(0.1, 0.4),
        "sink": rng.choice([0.0, rng.uniform(0.0, 0.15)]),
        "riser_bore": rng.uniform(0.040, 0.080) if mood == "slow" else rng.uniform(0.020, 0.080),
        "valve_coefficient": coefficient,
        "valve_lift_factor": lift_factor,
        "opening_pressure": opening,
        "screen_area": rng.uniform(0.02, 0.4),
        "screen_structure": rng.uniform(0.8, 1.0),
        "screen_open": rng.uniform(0.3, 0.7),
    }


def random_roughness(rng: random.Random) -> tuple[float, float]:
    clean = math.exp(rng.uniform(math.log(1e-6), math.log(1e-4)))
    return clean, math.exp(rng.uniform(math.log(clean), math.log(3e-4)))


def random_suction(rng: random.Random, mood: str) -> Job:
    clean, fouled = random_roughness(rng)
    total = math.exp(rng.uniform(math.log(5.0), math.log(120.0)))
    share = rng.uniform(0.3, 0.95)
    return {
        "bed_length": total * share,
        "bank_length": total * (1.0 - share),
        "along": rng.choice([0.0, rng.uniform(0.0, 0.08)]),
        "bore": rng.uniform(0.035, 0.080) if mood == "slow" else rng.uniform(0.020, 0.080),
        "roughness": clean,
        "roughness_fouled": fouled,
        "coefficient": rng.uniform(0.0, 12.0),
    }


def random_wall(rng: random.Random) -> Job:
    """The wall of a suction line: of plastic or metal, of hose with a printed vacuum, of hose that bears none."""
    outside = rng.uniform(0.025, 0.1)
    long = math.exp(rng.uniform(math.log(1e8), math.log(2e11)))
    long, short, rating = rng.choice(
        [
            (long, long * rng.uniform(1.0, 3.0), math.inf),
            (long, long * rng.uniform(1.0, 3.0), math.inf),
            (math.inf, math.inf, rng.uniform(3e4, 1e5)),
            (math.inf, math.inf, 0.0),
        ]
    )
    return {
        "outside": outside,
        "wall": outside * rng.uniform(0.02, 0.12),
        "ovality": rng.uniform(0.0, 0.08),
        "poisson": rng.uniform(0.0, 0.45),
        "long_modulus": long,
        "short_modulus": short,
        "vacuum_rating": rating,
        "allowed_pressure": rng.uniform(5e4, 2e6),
    }


def random_lie(rng: random.Random) -> Job:
    """How a suction line lies, well or badly."""
    return {
        "valves": float(rng.randint(0, 2)),
        "slope": rng.uniform(-0.02, 0.05),
        "joints": float(rng.randint(0, 3)),
        "pocket_length": rng.choice([0.0, rng.uniform(0.0, 10.0)]),
        "buried_to": rng.choice([-math.inf, rng.uniform(-4.0, 0.0)]),
    }


def random_holding(rng: random.Random) -> Job:
    return {name: float(rng.random() < 0.5) for name in ("at_inlet", "at_pump", "flooded")}


def random_faults(rng: random.Random) -> Job:
    faults = {
        "blocked": 0.0,
        "valve_opening": 1.0,
        "air": 0.0,
        "wear": 0.0,
        "speed": 1.0,
        "nozzle": 1.0,
        "level_offset": 0.0,
    }
    if rng.random() < 0.6:
        return faults
    moved = {
        "blocked": rng.uniform(0.0, 0.8),
        "valve_opening": rng.uniform(0.25, 1.0),
        "air": rng.uniform(0.0, 0.2),
        "wear": rng.uniform(0.0, 0.3),
        "speed": rng.uniform(0.8, 1.1),
        "nozzle": rng.uniform(0.5, 1.0),
        "level_offset": rng.uniform(-1.0, 0.5),
    }
    return {name: moved[name] if rng.random() < 0.4 else neutral for name, neutral in faults.items()}


def random_openings(rng: random.Random) -> Job:
    """How open and how tight the lines are, mostly wholly."""
    return {
        "line_opening": rng.choice([1.0, 1.0, rng.uniform(0.2, 1.0)]),
        "delivery_opening": rng.choice([1.0, 1.0, rng.uniform(0.2, 1.0)]),
        "airtight": rng.choice([1.0, 1.0, 0.0, rng.uniform(0.0, 1.0)]),
    }


def uneven_steps(rng: random.Random, count: int) -> list[float]:
    """Shares from 0 to 1, rising by uneven steps."""
    steps = [rng.uniform(0.4, 1.6) for _ in range(count - 1)]
    total = sum(steps)
    return [0.0, *(sum(steps[:k]) / total for k in range(1, count - 1)), 1.0]


def random_centrifugal(rng: random.Random, mood: str) -> tuple[Job, float, float]:
    """A pump, its run-out flow and its head at rest, in metres above the lake."""
    run_out = rng.uniform(1.5e-4, 4.5e-4) if mood == "slow" else math.exp(rng.uniform(math.log(6e-4), math.log(6e-3)))
    shut_off = rng.uniform(20.0, 90.0)
    drop, bend = rng.uniform(0.45, 0.95), rng.uniform(1.2, 2.6)
    shares = uneven_steps(rng, rng.randint(4, 9))
    # A maker's points scatter: each fall is stretched or shrunk, so the curve bends both ways yet falls.
    falls = [(b**bend - a**bend) * rng.uniform(0.6, 1.4) for a, b in pairwise(shares)]
    scale = shut_off * drop / sum(falls)
    heads = [shut_off - scale * sum(falls[:k]) for k in range(len(shares))]
    required_shares = [rng.uniform(0.05, 0.25), rng.uniform(0.4, 0.6), rng.choice([0.8, 0.9, 1.0, 1.0])]
    least = rng.uniform(0.8, 2.5)
    most = least + rng.uniform(0.5, 4.0)
    pump = {
        "flow": [run_out * share for share in shares],
        "head": heads,
        "required_flow": [run_out * share for share in required_shares],
        "required": [least, least + 0.3 * (most - least), most],
    }
    return pump, run_out, shut_off


def random_jet(rng: random.Random, mood: str) -> tuple[Job, float, float]:
    """A pump, its most flow and, in metres above itself, the pressure at which its middle row dies."""
    most_flow = rng.uniform(1.5e-4, 3.5e-4) if mood == "slow" else rng.uniform(3e-4, 1.5e-3)
    rows, columns = rng.randint(3, 6), rng.randint(3, 7)
    deepest = rng.uniform(6.5, 9.0)
    lifts = [1.5 + (deepest - 1.5) * share for share in uneven_steps(rng, rows)]
    dead_shallow = rng.uniform(350e3, 600e3)
    dead_loss = rng.uniform(5e3, 30e3)  # Pa of dead pressure lost a metre of lift
    least = rng.uniform(50e3, 150e3)
    most = dead_shallow * rng.uniform(0.9, 1.25)  # some tables stop before every row has died
    pressures = [least + (most - least) * share for share in uneven_steps(rng, columns)]
    bend, weaken = rng.uniform(1.0, 2.0), rng.uniform(0.4, 0.85)
    flows = []
    for lift in lifts:
        dead = dead_shallow - dead_loss * (lift - lifts[0])
        strength = most_flow * (1.0 - weaken * (lift - lifts[0]) / (lifts[-1] - lifts[0]))
        flows.append([strength * max(0.0, 1.0 - (p / dead) ** bend) for p in pressures])
    middle = zip(pressures, flows[rows // 2], strict=True)
    dead_middle = next((p for p, flow in middle if flow == 0.0), pressures[-1])
    pump = {"lifts": lifts, "pressures": pressures, "flows": flows}
    return pump, most_flow, dead_middle / (1000.0 * STANDARD_GRAVITY)


def random_delivery(rng: random.Random, mood: str, pump_height: float, most_head: float) -> Job:
    """A delivery whose tank asks, at cut-out, a share of the most head that suits the mood."""
    share = {
        "ordinary": rng.uniform(0.45, 0.9),
        "shut-off": rng.uniform(0.93, 1.03),
        "run-out": rng.uniform(0.15, 0.4),
        "slow": rng.uniform(0.3, 0.95),
    }[mood]
    height = pump_height + most_head * rng.uniform(0.0, 0.5) * share
    metre = 1000.0 * STANDARD_GRAVITY
    cut_out = max(share * most_head - height, 3.0) * metre
    cut_in = cut_out * rng.uniform(0.45, 0.8)
    clean, fouled = random_roughness(rng)
    bore = rng.uniform(0.040, 0.080) if mood in ("run-out", "slow") else rng.uniform(0.015, 0.080)
    return {
        "bore": bore,
        "length": math.exp(rng.uniform(math.log(5.0), math.log(60.0 if mood == "run-out" else 300.0))),
        "roughness": clean,
        "roughness_fouled": fouled,
        "coefficient": rng.uniform(1.0, 15.0),
        "height": height,
        "cut_in": cut_in,
        "cut_out": cut_out,
        "precharge": cut_in * rng.uniform(0.7, 1.0),
        "tank_volume": rng.uniform(0.02, 0.5),
        "flow_control": rng.uniform(1e-4, 1.2e-3) if rng.random() < 0.2 else math.inf,
    }


def random_taps(rng: random.Random, job: Job) -> Job:
    """Two branches, one of them through the filters, and the figures of filters, relief and ratings in the delivery."""
    delivery, need = job["delivery"], job["need"]["flow"]
    clean = rng.choice([0.0, rng.uniform(0.0, 4e4)])
    delivery |= {
        "filters_clean": clean,
        "filters_dirty": clean * rng.uniform(1.0, 4.0),
        "relief": rng.choice([math.inf, delivery["cut_out"] * rng.uniform(1.05, 1.6)]),
        "tank_bears": rng.uniform(5e5, 1e6),
        "pipe_bears": rng.uniform(4e5, 1.7e6),
    }
    flow = [need * rng.uniform(0.1, 1.0), need * rng.uniform(0.1, 1.0)]
    least = [rng.uniform(3e4, 1.5e5), rng.uniform(3e4, 1.5e5)]
    return {
        "height": [delivery["height"] + rng.uniform(-6.0, 12.0) for _ in flow],
        "flow": flow,
        "filtered": [flow[0] * rng.uniform(1.0, 2.0), 0.0],
        "length": [rng.uniform(0.0, 20.0), rng.uniform(0.0, 100.0)],
        "bore": [rng.uniform(0.012, 0.04) for _ in flow],
        "roughness": [rng.uniform(1e-6, 1e-4) for _ in flow],
        "least": least,
        "easy": [low + rng.uniform(2e4, 9e4) for low in least],
    }


# What `python benchmarks/plain.py` shows


GALLON = 231.0 * INCH**3  # m3; published: the US gallon
INCH_OF_MERCURY = 3386.39  # Pa; published: at 32 F and standard gravity


def check_rows() -> list[tuple[str, str, float]]:
    """Rows of the table of check values: what, as printed there, and as found here."""
    warm = ICE_POINT + (60.0 - 32.0) / 1.8
    mild = ICE_POINT + 15.0

    def nu(temperature: float) -> float:
        return dynamic_viscosity(temperature) / density(temperature)

    def loss_per_hundred(inches: float, gallons: float, roughness: float, temperature: float) -> float:
        return Pipe(inches * INCH, 100.0, roughness, nu(temperature)).along(gallons * GALLON / 60.0)

    steel = 0.00015 * FOOT
    bore = 1.380 * INCH
    reynolds = Pipe(bore, 100.0, 1.5e-6, nu(mild)).reynolds_per_flow * 10.0 * GALLON / 60.0
    us_lift_factor = 15.0 * FOOT * math.sqrt(POUND / FOOT**3)
    rho = density(mild)
    return [
        ("1  1.610 in, steel, 60 F, 30 gpm: ft/100 ft", "6.262", loss_per_hundred(1.610, 30.0, steel, warm)),
        ("2  the same, 50 gpm", "16.43", loss_per_hundred(1.610, 50.0, steel, warm)),
        ("6  1.380 in, e 1.5 um, 15 C, 10 gpm: Re", "20128", reynolds),
        ("6  f", "0.02594", friction_factor(reynolds, 1.5e-6 / bore)),
        ("6  ft/100 ft", "1.613", loss_per_hundred(1.380, 10.0, 1.5e-6, mild)),
        ("7  Colebrook, Re 1e5, e/D 1e-4", "0.018514", friction_factor(1e5, 1e-4)),
        ("10 poppet full lift, 15 C, N 15 US: ft/s", "1.899", us_lift_factor / math.sqrt(rho) / FOOT),
        ("10 N 20 SI: ft/s", "2.076", 20.0 / math.sqrt(rho) / FOOT),
        ("11 vapour pressure, 10 C: kPa", "1.2282", vapour_pressure(ICE_POINT + 10.0) / 1e3),
        ("11 20 C", "2.3393", vapour_pressure(ICE_POINT + 20.0) / 1e3),
        ("12 air at 1524 m: kPa", "84.311", atmosphere(1524.0) / 1e3),
        ("12 inHg", "24.90", atmosphere(1524.0) / INCH_OF_MERCURY),
    ]  # fmt: skip


def worst_curve_difference(count: int) -> float:
    """Largest relative difference from scipy's cubic over made-up curves, humps and flats included."""
    worst = 0.0
    rng = random.Random("curves")
    for _ in range(count):
        xs = uneven_steps(rng, rng.randint(2, 9))
        ys = [rng.uniform(1.0, 2.0) if rng.random() < 0.8 else 1.5 for _ in xs]
        ours, theirs = ShapeKeepingCubic(xs, ys), PchipInterpolator(xs, ys)
        for k in range(101):
            worst = max(worst, abs(ours(k / 100) / float(theirs(k / 100)) - 1.0))
    return worst


def worst_colebrook_residual(count: int) -> float:
    """Largest residual of Colebrook as the handbooks print it, relative, over made-up pipes."""
    worst = 0.0
    rng = random.Random("pipes")
    for _ in range(count):
        reynolds = math.exp(rng.uniform(math.log(4e3), math.log(1e8)))
        roughness = rng.choice([0.0, math.exp(rng.uniform(math.log(1e-7), math.log(0.05)))])
        x = 1.0 / math.sqrt(turbulent_friction(reynolds, roughness))
        worst = max(worst, abs(-2.0 * math.log10(roughness / 3.7 + 2.51 * x / reynolds) / x - 1.0))
    return worst


def times_of_points(kind: str, count: int) -> tuple[list[float], list[float], list[float]]:
    """Seconds a solve, seconds a whole point, and residuals left at the roots, over made-up jobs."""
    solves, wholes, residuals = [], [], []
    for seed in range(count):
        job = random_job(seed, kind)
        pump, standing_pressure = pump_of(job), standing(job)["pressure"]
        for case in running_cases(job):
            start = time.perf_counter()
            circuit = Circuit(job, pump, case)
            flow = circuit.flow()
            middle = time.perf_counter()
            running_point(job, pump, case, standing_pressure[case.day])
            end = time.perf_counter()
            wholes.append(end - middle)
            if 0.0 < flow < min(pump.run_out, circuit.held):
                solves.append(middle - start)
                scale = flow if isinstance(pump, JetPump) else pump.head(0.0)
                residuals.append(abs(circuit.left_over(flow)) / scale)
    return solves, wholes, residuals


def main() -> None:
    print("check values                                              printed      here")
    for what, printed, found in check_rows():
        places = len(printed.partition(".")[2])
        print(f"{what:54} {printed:>10} {found:>10.{places}f}")
    print()
    print(f"Colebrook as printed, worst relative residual         {worst_colebrook_residual(5000):.1e}")
    print(f"curve against scipy's, worst relative difference      {worst_curve_difference(300):.1e}")
    for kind in ("centrifugal", "jet"):
        solves, wholes, residuals = times_of_points(kind, 150)
        print(
            f"{kind:12} {len(wholes)} points, {len(solves)} with a root: "
            f"solve {1e6 * statistics.median(solves):.0f} us, "
            f"whole point {1e6 * statistics.median(wholes):.0f} us (medians); "
            f"worst relative residual {max(residuals):.1e}"
        )


if __name__ == "__main__":
    main()
