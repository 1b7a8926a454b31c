"""What may be chosen of the stand: its form, its riser, its foot valve and its screen."""

from __future__ import annotations

from itertools import product

from lakewright import units
from lakewright.job.models import Job
from lakewright.search.option import Option, named_option, quantity, said, stocked_option
from lakewright.state.gather import OPEN
from lakewright.state.holding import ATTITUDES
from lakewright.state.stand_built import FORMS_ON_LEGS
from lakewright.stock.load import Stock

RISERS = tuple(units.read(f"{inches} in", "length") for inches in (8, 10, 12, 18, 24, 30, 36))
"""common practice, no source: 12, 18 and 24 in. ours: the nipples next under them, and half a foot and a foot more."""


def stand_options(job: Job, stock: Stock, valve: str, screen: str) -> dict[str, list[Option]]:
    """The options of form, riser, foot valve and screen; of all of them as one part where they hang together.

    They do where the form is open, for each mounts the valve in its own way, and where the frame is named: the heights
    are then those of the stand as built, from its valve and its screen.

    Parameters
    ----------
    valve, screen : the names of those that the job has, in stock
    """
    parts = _each(job, stock, valve, screen)
    several = [name for name, some in parts.items() if len(some) > 1]
    if len(several) < 2 or (job.stand.form != OPEN and job.stand.frame in (None, OPEN)):
        return parts
    whole = []
    for form in parts["form"]:
        rest = _each(said(job, form.says), stock, valve, screen)
        others = [rest[name] for name in parts if name != "form"]
        whole += [_together(several, dict(zip(parts, (form, *some), strict=True))) for some in product(*others)]
    return {"stand": whole}


def _each(job: Job, stock: Stock, valve: str, screen: str) -> dict[str, list[Option]]:
    return {
        "form": _forms(job),
        "riser": _risers(job),
        "foot valve": _foot_valves(job, stock, valve),
        "screen": _screens(job, stock, screen),
    }


def _together(named: list[str], options: dict[str, Option]) -> Option:
    """Several options as one, called by those that are named."""
    label = ", ".join(f"{name} {options[name].label}" if name != "form" else options[name].label for name in named)
    says = {key: value for option in options.values() for key, value in option.says.items()}
    return Option(label, says, size=options["foot valve"].size)


def _forms(job: Job) -> list[Option]:
    """Forms on legs, each with its valve as it mounts it; to hang or float it takes what a site has or has not."""
    if job.stand.form != OPEN:
        return [Option("as given")]
    given = job.stand.inlet.attitude
    return [
        Option(form, {"stand.form": form, "stand.inlet.attitude": given or ATTITUDES.get(form, "up")})
        for form in FORMS_ON_LEGS
    ]


def _risers(job: Job) -> list[Option]:
    if job.stand.riser is None or not job.stand.riser.open:
        return [Option("as given")]
    return [Option(units.show(x, "part", job.job.units), {"stand.riser": quantity(x)}) for x in RISERS]


def _foot_valves(job: Job, stock: Stock, name: str) -> list[Option]:
    """Foot valves that seat as they are to be mounted."""
    inlet = job.stand.inlet
    if inlet.stock != OPEN or inlet.kind == "screen":
        return [named_option(name, stock.foot_valves)]
    mounted = inlet.attitude or ATTITUDES.get(job.stand.form or "", "up")
    return [
        stocked_option(row, {"stand.inlet.stock": row.name})
        for row in stock.foot_valves.values()
        if mounted in row.attitudes
    ]


def _screens(job: Job, stock: Stock, name: str) -> list[Option]:
    if job.stand.inlet.screen != OPEN:
        return [named_option(name, stock.screens)]
    return [stocked_option(row, {"stand.inlet.screen": row.name}) for row in stock.screens.values()]
