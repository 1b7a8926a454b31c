"""Treatment, protection, power, readings and price."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from typing import Annotated, Any, Literal

from pydantic import ConfigDict

from lakewright.job.quantity import (
    Concentration,
    Current,
    Dose,
    FieldProblem,
    Flow,
    Gauge,
    Height,
    Hours,
    Length,
    Mass,
    Minutes,
    Money,
    MoneyPerTime,
    Number,
    Part,
    Power,
    PressureLoss,
    Quantity,
    Share,
    ShareOverOne,
    SignedGauge,
    SuctionGauge,
    Temperature,
    Voltage,
    Volume,
    echo,
)
from lakewright.job.table import (
    FIGURE,
    Count,
    Rule,
    Table,
    Text,
    YesNoUnknown,
    field,
    required,
    rows,
    table,
)

Baffling = Literal[
    "one port", "unbaffled", "diffuser", "poor", "average", "superior", "near plug flow", "plug flow",
]  # fmt: skip


class TreatmentStep(Table):
    """One step of the treatment, in the order the water passes."""

    what: (
        Literal[
            "sediment filter", "carbon filter", "sand filter", "absolute filter", "membrane", "UV",
            "chlorine", "contact tank", "softener", "other",
        ]
        | None
    ) = field("What it is.")  # fmt: skip
    stock: Text | None = field('Its name in the stock, or "open".')
    flow: Flow | None = field("The most it may pass.")
    rating: Part | None = field("Size of the particles it holds back.")
    loss_clean: PressureLoss | None = field("Pressure lost in it when clean, at the flow needed.")
    loss_dirty: PressureLoss | None = field("Pressure lost in it when it is due for changing.")
    dirt: Mass | None = field("Dirt it holds when it is due for changing.")
    note: Text | None = field("What else is known of it.")


class Ultraviolet(Table):
    """A UV lamp."""

    stock: Text | None = field('Its name in the stock, or "open".')
    dose: Dose | None = field("Dose it was tested to give.")
    flow: Flow | None = field("Flow at which it gives that dose.")
    transmittance: Share | None = field("Least UV transmittance at which it gives that dose.")


class Chlorine(Table):
    """Chlorine, and the time it has to work."""

    dose: Concentration | None = field("Chlorine added.")
    residual: Concentration | None = field("Free chlorine left at the first tap.")
    volume: Volume | None = field("Volume in which it works.")
    baffling: Share | None = field("Share of that volume's filling time that counts.")
    tank: Baffling | None = field("How the tank or pipe it works in is built, where no share is known.")
    ph: Number | None = field("pH of the water.")
    temperature: Temperature | None = field("Coldest water it works in.")


class Treatment(Table):
    """What is done to the water."""

    steps: list[TreatmentStep] = rows("Steps in the order the water passes.")
    flow_control: Flow | None = field("Flow that a valve before the treatment holds, whatever the taps ask.")
    uv: Ultraviolet = table(Ultraviolet, "The UV lamp.")
    chlorine: Chlorine = table(Chlorine, "Chlorine and its contact time.")
    notes: Text | None = field("What else is known.")


def is_a_code_letter(letter: str, _: Mapping[str, Any]) -> None:
    """A code letter is one of those that motors carry."""
    if letter not in CODE_LETTERS:
        wanted = f"one of the letters {CODE_LETTERS[0]} to {CODE_LETTERS[-1]}, without I, O and Q"
        raise FieldProblem(echo(letter), wanted, "read it off the motor's plate, or leave it out")


CODE_LETTERS = "ABCDEFGHJKLMNPRSTUV"
"""Code letters of motors. Source: NEMA code letters, as an engineering reference page prints them."""


def none_stands_alone(guards: list[str], _: Mapping[str, Any]) -> None:
    """Whoever says there is nothing names nothing else."""
    if "none" in guards and len(guards) > 1:
        others = ", ".join(echo(each) for each in guards if each != "none")
        raise FieldProblem(f'"none" beside {others}', "what stops the pump, or none alone", 'take out "none"')


class Protection(Table):
    """What keeps the pump from harm."""

    dry_run: Annotated[
        list[
            Literal[
                "low-pressure cut-off", "float switch", "flow switch", "current relay", "casing thermostat", "none",
            ]
        ],
        Rule(none_stands_alone),
    ] = rows("What stops the pump when no water comes.")  # fmt: skip
    cut_off: Gauge | None = field("Pressure at which the low-pressure cut-off stops the pump.")
    float_at: Height | None = field("Height of the water, from the usual level, at which a float stops the pump.")
    switch_at: Literal["tank", "pump"] | None = field("Where the switch, and a cut-off with it, feels the pressure.")
    relief_flow: Flow | None = field("What the relief valve passes when it stands open.")
    frost: Literal["heater", "heat cable", "frost-free place", "drained", "none"] | None = field(
        "What keeps pump, tank and switch from freezing."
    )


class Supply(Table):
    """Where the power comes from."""

    supply: Literal["grid", "generator", "inverter", "unknown"] | None = field("What makes it.")
    voltage: Voltage | None = field("Voltage at the panel.")
    breaker: Current | None = field("Size of the breaker.")
    distance: Length | None = field("Length of cable from the panel to the pump.")
    wire: Text | None = field('Size and metal of the wire, as marked, or "open".')
    source_power: Power | None = field("What a generator or inverter can give.")
    motor_current: Current | None = field("Full-load current on the motor's plate.")
    code_letter: Annotated[Text | None, Rule(is_a_code_letter)] = field("Code letter of its start, on the same plate.")
    gfci: YesNoUnknown | None = field("Whether a ground-fault interrupter protects it.")


Symptom = Literal[
    "starts by itself", "runs, then starves", "weaker than it was", "lost prime once",
    "loses prime again and again", "no water", "starts and stops quickly", "does not stop", "does not start",
    "spits air",
]  # fmt: skip


FaultName = Literal[
    "screen dirty", "foot valve stuck", "foot valve leaks", "foot valve weeps", "stand dragged", "lake lower",
    "line kinked", "hose lining", "air pocket", "line frozen", "plug out", "union ring", "clamp draws air",
    "pump worn", "impeller loose", "runs backward", "voltage low", "nozzle plugged", "check backward",
    "delivery half shut", "filter not changed", "house runs", "tank short of air", "switch nipple silted",
    "switch nipple frozen",
]  # fmt: skip


Came = Literal["at once", "over days", "over months", "always so"]

Joint = Literal["plug", "union", "clamps", "no joint"]


class Reading(Table):
    """What was read at one visit, for finding faults and for the years' record."""

    date: datetime.date | None = field("The day of the visit.")
    changed: Text | None = field("What changed lately.")
    first_minute: Text | None = field("What happens over the first minute after starting.")
    came: Came | None = field("How it came to be so, as far as anybody saw.")
    does: list[Symptom] = rows("What it does that it should not, in the words a first answer goes by.")
    starves_after: Minutes | None = field("How long it runs well after starting, where it then starves.")
    suction_standing: SuctionGauge | None = field("Gauge at the suction port, pump stopped: say that it is a vacuum.")
    suction_running: SuctionGauge | None = field("Gauge at the suction port, pump running: say that it is a vacuum.")
    pressure_standing: SignedGauge | None = field("Gauge after the pump, pump stopped.")
    pressure_running: SignedGauge | None = field("Gauge after the pump, pump running.")
    pressure_shut: SignedGauge | None = field(
        "Gauge after the pump, pump running, the valve behind it shut for a moment."
    )
    suction_shut: SuctionGauge | None = field("Gauge at the suction port in that moment: say that it is a vacuum.")
    pressure_stop: SignedGauge | None = field("Gauge after the pump just as it stops, or the most it comes to.")
    tank_air: Gauge | None = field("Tyre gauge on the tank's air valve, power off and the tank empty of water.")
    flow: Flow | None = field("Flow by bucket and watch.")
    flow_before_filter: Flow | None = field("The same from a tap before the filters, or with their cartridges out.")
    lake_level: Height | None = field("The water against its mark, over the usual level; under it negative.")
    motor_current: Current | None = field("Current of the running motor.")
    drawdown: Volume | None = field("Water drawn from the tank between cut-out and cut-in.")
    cycle_time: Minutes | None = field("From one start to the next with one tap open.")
    wetted: Joint | None = field("Which joint, wetted while the pump runs, moved the needle or drew in bubbles.")
    ruled_out: list[FaultName] = rows("Faults looked for and not found, by the names that diagnose gives them.")
    note: Text | None = field("What else was seen.")


def markup_or_margin(margin: Quantity, before: Mapping[str, Any]) -> None:
    """The price is found from the cost in one way."""
    markup = before.get("markup")
    if markup is not None:
        raise FieldProblem(
            f"{echo(margin.text)} beside markup = {echo(markup.text)}",
            "a markup on cost, or a margin of the price, not both",
            "take out one of the two",
        )


def price_beyond_cost(margin: Quantity, _: Mapping[str, Any]) -> None:
    """Some of the price is cost."""
    if margin.value >= 1.0:
        raise FieldProblem(
            echo(margin.text),
            "a margin under 100 % of the price",
            "a share added to the cost is a markup: write markup instead",
        )


def somebody_works(crew: int, _: Mapping[str, Any]) -> None:
    """A crew has someone in it."""
    if crew == 0:
        raise FieldProblem("0", "one person or more", 'write hours = "0 h" where others do the work')


def by_the_job_or_half_day(key: str) -> Rule:
    """What is hired is paid in one way."""

    def holds(half_day: Quantity, before: Mapping[str, Any]) -> None:
        whole = before.get(key)
        if whole is not None:
            raise FieldProblem(
                f"{echo(half_day.text)} beside {key} = {echo(whole.text)}",
                "a price for the whole job, or one for each half-day, not both",
                "take out one of the two",
            )

    return Rule(holds)


class Price(Table):
    """How the job is priced."""

    level: Literal["counter", "trade", "web"] | None = field("Which of the three prices of a part.")
    labour_rate: MoneyPerTime | None = field("Price of one person's work.")
    crew: Annotated[Count | None, Rule(somebody_works)] = field("People at work on the site.")
    hours: Hours | None = field("Time the crew is at work, where it is not to follow from the tasks.")
    travel: Money | None = field("Travel, at cost.")
    boat: Money | None = field("Boat, for the whole job.")
    boat_half_day: Annotated[Money | None, by_the_job_or_half_day("boat")] = field("Boat, for each half-day begun.")
    digger: Money | None = field("Digger, for the whole job.")
    digger_half_day: Annotated[Money | None, by_the_job_or_half_day("digger")] = field(
        "Digger, for each half-day begun."
    )
    permits: Money | None = field("Permits and laboratory, at cost.")
    call_back: Money | None = field("What one visit after the job costs. Ranks designs; not in the price.")
    contingency: Share | None = field("Share added to what goes in the water, for what is found there.")
    markup: ShareOverOne | None = field("Share of the cost that is added to it.")
    margin: Annotated[Share | None, Rule(markup_or_margin), Rule(price_beyond_cost)] = field(
        "Share of the price that is not cost."
    )
    tax: Share | None = field("Tax.")
    tax_on: Literal["parts", "everything", "nothing"] | None = field("What is taxed.")
    deposit: Share | None = field("Share of the total asked at the order.")
    valid_days: Count | None = field("Days the quote is good for.")
    currency: Text | None = field("The currency, where it is not plain from the place.")


class Override(Table):
    """A limit of a check, changed for this job, and why."""

    model_config = ConfigDict(extra="allow")
    __pydantic_extra__: dict[str, Annotated[Any, FIGURE]]

    reason: Text = required("Why this job may differ.")

    @property
    def figures(self) -> dict[str, float | str | bool]:
        """The changed figures by name, as written."""
        return dict(self.model_extra or {})
