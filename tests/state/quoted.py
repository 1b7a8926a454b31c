"""A job with its price said in full, for the tests of quotes."""

from __future__ import annotations

from typing import Any

from lakewright.job.models import Job
from lakewright.job.read import read_job_text
from lakewright.state.quote import PartsCost, Quote, quote_of
from lakewright.state.works import Works

WORKS = Works(
    visits=1.0,
    stands=1.0,
    legs=4.0,
    set_from_boat=1.0,
    set_from_shore=0.0,
    water_length=50.0,
    bank_length=10.0,
    digger_length=25.0,
    hand_length=0.0,
    pumps=1.0,
    tanks=1.0,
    joints=50.0,
    branches=2.0,
    steps=1.0,
    carry_length=0.0,
)
PARTS = PartsCost(price=200_000, in_water=50_000)
SAID: dict[str, Any] = {
    "labour_rate": "$80/hour",
    "travel": "$60",
    "boat_half_day": "$150",
    "digger_half_day": "$250",
    "permits": "$120",
    "contingency": "10 %",
    "markup": "25 %",
    "tax": "6 %",
    "tax_on": "parts",
    "deposit": "40 %",
    "valid_days": 14,
}


def job(grade: str = "build", **price: Any) -> Job:
    """A job that says of its price what is given here, over what the worked example says; None takes a field out."""
    said = {name: value for name, value in {**SAID, **price}.items() if value is not None}
    lines = [f"{name} = {value}" if isinstance(value, int) else f'{name} = "{value}"' for name, value in said.items()]
    return read_job_text("\n".join([f'[job]\ndate = 2026-05-09\ngrade = "{grade}"\n[price]', *lines]))


def silent(grade: str = "quote") -> Job:
    return read_job_text(f'[job]\ndate = 2026-05-09\ngrade = "{grade}"\n')


def quoted(parts: PartsCost = PARTS, works: Works = WORKS, **price: Any) -> Quote:
    return quote_of(job(**price), parts, works)
