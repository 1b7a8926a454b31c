"""From a bill of parts and the works to the price a customer is quoted, in whole cents."""

from __future__ import annotations

import datetime
import math
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Literal

from lakewright import units
from lakewright.job.models import Job
from lakewright.job.quantity import Quantity
from lakewright.state.gather import Assumed, Gather
from lakewright.state.labour import HOUR, Stint, half_days, hours_together, stints_of
from lakewright.state.money import asked, by_margin, by_markup, cents, exact
from lakewright.state.works import Works

Kind = Literal["parts", "labour", "boat", "digger", "contingency", "travel", "permits", "tax"]

EXCLUDED = (
    "Power to the pump, by a licensed electrician",
    "A diver",
)
"""What is in no price of ours, said on every quote."""


@dataclass(frozen=True, slots=True)
class PartsCost:
    """What the parts of a bill cost [cents], and what of it goes in the water: the stand and the suction line."""

    price: int
    in_water: int
    unpriced: tuple[str, ...] = ()  # what the bill could not name or price, in words


@dataclass(frozen=True, slots=True)
class Charge:
    """One line of a quote."""

    what: str
    kind: Kind
    cost: int  # cents, to the shop
    amount: int  # cents, to the customer
    why: str


@dataclass(frozen=True, slots=True)
class Quote:
    """The price of a job [cents]."""

    lines: tuple[Charge, ...]
    deposit: int | None  # None where nobody has said it, or the total is not whole
    valid_until: datetime.date | None
    valid_days: int | None
    call_back: int  # of one visit after the job; in no price, for ranking designs
    missing: tuple[str, ...]  # what the total lacks because nobody has said it
    excluded: tuple[str, ...]  # what is not in the total on purpose
    assumed: tuple[Assumed, ...]
    taxed: bool  # whether the tax is in it, be it none
    currency: str

    @property
    def cost(self) -> int:
        """What the job costs the shop, tax apart."""
        return sum(line.cost for line in self.lines if line.kind != "tax")

    @property
    def price(self) -> int:
        """What the customer is asked, tax apart."""
        return sum(line.amount for line in self.lines if line.kind != "tax")

    @property
    def tax(self) -> int:
        """The tax."""
        return self.of("tax")

    @property
    def total(self) -> int:
        """What the customer pays."""
        return sum(line.amount for line in self.lines)

    @property
    def balance(self) -> int | None:
        """What is paid after the deposit."""
        return None if self.deposit is None else self.total - self.deposit

    def of(self, kind: Kind) -> int:
        """What the customer is asked for one kind of thing."""
        return sum(line.amount for line in self.lines if line.kind == kind)


@dataclass
class _Draft:
    """A quote under way."""

    job: Job
    gather: Gather
    stints: tuple[Stint, ...]
    missing: list[str] = field(default_factory=list)
    marked: list[Charge] = field(default_factory=list)  # what bears markup or margin, its amount not yet worked out
    at_cost: list[Charge] = field(default_factory=list)
    excluded: list[str] = field(default_factory=lambda: list(EXCLUDED))

    def figure(
        self, name: str, given: Quantity | None, what: str, kind: str = "money", scale: float = 1.0
    ) -> Fraction | None:
        """A figure of `[price]` from the job or the shop's defaults; None, and named, where neither has it."""
        value = self.gather.number(f"price.{name}", given, f"[price] {name}", kind=kind)
        if math.isnan(value):
            self.missing.append(f"{what}: [price] {name} is not given")
            return None
        return exact(value * scale)

    def charge(self, what: str, kind: Kind, cost: int, why: str) -> None:
        """A cost that bears markup or margin. What costs nothing is no line; the parts always are."""
        if cost or kind == "parts":
            self.marked.append(Charge(what, kind, cost, 0, why))

    def leave_out(self, words: str, place: str) -> None:
        """What nobody has said: not in a quote, and said so; lacking in a build."""
        if self.gather.grade == "quote":
            self.excluded.append(words)
        else:
            self.missing.append(f"{words}: {place} is not given")


def quote_of(job: Job, parts: PartsCost, works: Works) -> Quote:
    """The price of a job.

    Parameters
    ----------
    job : as read; a quote takes the shop's defaults where it says nothing, a build takes none
    parts : from the bill
    works : quantities of work

    Returns
    -------
    Quote; what nobody has said is named in `missing`, never counted as nothing
    """
    draft = _Draft(job, Gather(job.job.grade), stints_of(works, job.price.crew))
    draft.missing += [f"parts: {words}" for words in parts.unpriced]
    draft.charge("Parts", "parts", parts.price, f"the bill of parts, {job.price.level or 'counter'} prices")
    labour = _labour_in_water(draft, works)
    boat, _ = _hire(draft, "boat"), _hire(draft, "digger")
    _contingency(draft, parts.in_water, labour, boat)
    factor = _factor(draft)
    amounts = asked([charge.cost for charge in draft.marked], factor)
    lines = [replace(charge, amount=amount) for charge, amount in zip(draft.marked, amounts, strict=True)]
    _at_cost(draft)
    lines += draft.at_cost
    taxed = _tax(draft, lines)
    return _on_terms(draft, lines, works, taxed)


def _labour_in_water(draft: _Draft, works: Works) -> int | None:
    """Charge the labour, and give what of it is in the water [cents]; None where that is not known."""
    price = draft.job.price
    if price.hours is not None and price.hours.value == 0.0:
        draft.excluded.append("Labour, by others")
        return 0
    if price.hours is None and draft.job.access.work_by == "owner":
        draft.excluded.append("Labour, by the owner")
        return 0
    rate = draft.figure("labour_rate", price.labour_rate, "labour", scale=100.0 * HOUR)
    if price.hours is not None:
        return None if rate is None else _labour_as_told(draft, price.hours, rate)
    unknown = [stint.task.what for stint in draft.stints if stint.hours is None]
    if unknown:
        draft.missing.append(f"hours to {' and to '.join(map(_uncapitalised, unknown))}: {'; '.join(works.missing)}")
    return None if rate is None else _labour_by_task(draft, rate)


def _labour_by_task(draft: _Draft, rate: Fraction) -> int | None:
    wet: int | None = 0
    together = Fraction(0)
    for stint in draft.stints:
        if stint.hours is None:
            wet = None if stint.task.in_water else wet
            continue
        together += stint.hours
        cost = cents(rate * stint.hours * stint.people)
        draft.charge(stint.task.what, "labour", cost, _hours_in_words(stint.hours, stint.people))
        if stint.task.in_water and wet is not None:
            wet += cost
    why = "hours and people by the table of tasks (ours)"
    draft.gather.assume("price.hours", float(together) * HOUR, "hours", why, "[price] hours")
    return wet


def _labour_as_told(draft: _Draft, hours: Quantity, rate: Fraction) -> int | None:
    """Charge the hours a job gives; the tasks say what part of them is in the water."""
    told = exact(draft.gather.number("price.hours", hours, "[price] hours", kind="hours") / HOUR)
    crew = draft.job.price.crew or draft.gather.default("price.crew", "[price] crew", "price.crew")
    if math.isnan(crew):
        draft.missing.append("labour: [price] crew is not given")
        return None
    cost = cents(rate * told * int(crew))
    draft.charge("Labour", "labour", cost, _hours_in_words(told, int(crew)))
    work = [(stint.hours and stint.hours * stint.people, stint.task.in_water) for stint in draft.stints]
    if any(each is None for each, _ in work):
        return None
    whole = sum((each for each, _ in work if each), Fraction(0))
    return cents(cost * sum((each for each, wet in work if each and wet), Fraction(0)) / whole) if whole else 0


def _hours_in_words(hours: Fraction, people: int) -> str:
    shown = units.show(float(hours) * HOUR, "hours", "SI")
    return shown if people == 1 else f"{shown}, {people} people"


def _hire(draft: _Draft, name: Literal["boat", "digger"]) -> int | None:
    """Charge a boat or a digger, and give its cost [cents]; None where that is not known.

    The customer's own is not charged; one who does the work himself may still have to hire it, and is told so.
    """
    price, access, what = draft.job.price, draft.job.access, name.capitalize()
    whole: Quantity | None = getattr(price, name)
    if whole is not None:
        cost = cents(exact(draft.gather.number(f"price.{name}", whole, f"[price] {name}", kind="money")))
        draft.charge(what, name, cost, "for the whole job")
        return cost
    hours = hours_together(stint for stint in draft.stints if stint.task.needs == name)
    if hours is None:
        draft.missing.append(f"{name}: for how long is not known")
        return None
    if price.hours is not None:
        hours = min(hours, exact(price.hours.value / HOUR))
    if hours == 0:
        return 0
    if getattr(access, f"own_{name}") == "yes":
        draft.excluded.append(f"{what}, the customer's own")
        return 0
    count = half_days(hours, exact(draft.gather.default("price.half_day", "", "price.half_day") / HOUR))
    each = draft.figure(f"{name}_half_day", getattr(price, f"{name}_half_day"), name)
    if each is None:
        return None
    cost = count * cents(each)
    unless = ", hired unless the owner brings one" if access.work_by == "owner" else ""
    draft.charge(what, name, cost, f"{'1 half-day' if count == 1 else f'{count} half-days'}{unless}")
    return cost


def _contingency(draft: _Draft, parts: int, labour: int | None, boat: int | None) -> None:
    """Charge the share that is added to what goes in the water: parts, labour and boat [cents]."""
    share = draft.figure("contingency", draft.job.price.contingency, "contingency")
    if not share:
        return
    if labour is None or boat is None:
        draft.missing.append("contingency: what goes in the water is not all priced")
        return
    why = f"{_per_cent(share)} of what goes in the water"
    draft.charge("Contingency", "contingency", cents(share * (parts + labour + boat)), why)


def _factor(draft: _Draft) -> Fraction:
    """Price over cost."""
    price = draft.job.price
    if price.margin is not None:
        return by_margin(exact(draft.gather.number("price.margin", price.margin, "[price] margin", kind="share")))
    markup = draft.figure("markup", price.markup, "markup or margin")
    return by_markup(markup or Fraction(0))


def _at_cost(draft: _Draft) -> None:
    """Charge travel, permits and laboratory: no markup, no contingency."""
    price = draft.job.price
    travel = draft.figure("travel", price.travel, "travel")
    permits = None
    if price.permits is None:
        draft.leave_out("Permits and laboratory", "[price] permits")
    else:
        permits = draft.figure("permits", price.permits, "permits")
    charges: tuple[tuple[str, Kind, Fraction | None], ...] = (
        ("Travel", "travel", travel),
        ("Permits and laboratory", "permits", permits),
    )
    for what, kind, cost in charges:
        if cost:
            draft.at_cost.append(Charge(what, kind, cents(cost), cents(cost), "at cost"))


def _tax(draft: _Draft, lines: list[Charge]) -> bool:
    """Add the tax to the lines; whether it is known, be it none."""
    price = draft.job.price
    if price.tax_on == "nothing":
        return True
    if price.tax is None:
        draft.leave_out("Tax", "[price] tax")
        return False
    rate = exact(draft.gather.number("price.tax", price.tax, "[price] tax", kind="share"))
    on = price.tax_on
    if on is None and rate:
        if draft.gather.grade == "build":
            draft.missing.append("tax: [price] tax_on is not given")
            return False
        on = "everything"
        why = "the most it can be (ours)"
        draft.gather.assumed["price.tax_on"] = Assumed(
            "price.tax_on", math.nan, "", "assumed", why, on, "[price] tax_on"
        )
    taxed = sum(line.amount for line in lines if on == "everything" or line.kind == "parts")
    tax = cents(rate * taxed)
    if tax:
        lines.append(Charge("Tax", "tax", tax, tax, f"{_per_cent(rate)} of {on}"))
    return True


def _on_terms(draft: _Draft, lines: list[Charge], works: Works, taxed: bool) -> Quote:
    """The quote with what is asked at the order, and until when it is good."""
    job, gather = draft.job, draft.gather
    total = sum(line.amount for line in lines)
    deposit = gather.number("price.deposit", job.price.deposit, "[price] deposit")
    days: float | None = job.price.valid_days
    if days is None:
        days = gather.default("price.valid_days", "[price] valid_days", "price.valid_days")
    valid_days = None if math.isnan(days) else int(days)
    call_back = gather.number("price.call_back", job.price.call_back, "[price] call_back")
    return Quote(
        lines=tuple(lines),
        deposit=None if draft.missing or math.isnan(deposit) else cents(exact(deposit) * total),
        valid_until=_days_after(job.job.date, valid_days),
        valid_days=valid_days,
        call_back=cents(exact(call_back)),
        missing=tuple(draft.missing),
        excluded=tuple(draft.excluded),
        assumed=(*works.assumed, *gather.assumed.values()),
        taxed=taxed,
        currency=job.price.currency or "",
    )


def _days_after(start: datetime.date | None, days: int | None) -> datetime.date | None:
    """The date some days after another, the calendar's last at the latest; None where either is not known."""
    if start is None or days is None:
        return None
    return datetime.date.fromordinal(min(start.toordinal() + days, datetime.date.max.toordinal()))


def _uncapitalised(words: str) -> str:
    return words[:1].lower() + words[1:]


def _per_cent(share: Fraction) -> str:
    return units.show(float(share), "share", "SI")


def summary(quote: Quote) -> tuple[tuple[str, str], ...]:
    """A quote as pairs of words for a sheet: what, and how much. Labour is one line; the shop's cost is in none."""

    def shown(amount: int) -> str:
        return units.show(float(amount), "money", "US")

    parts_alone = quote.missing and len(quote.lines) == 1
    rows = (
        [] if parts_alone else [(_words_of(line), shown(line.amount)) for line in quote.lines if line.kind != "labour"]
    )
    if quote.of("labour"):
        rows.insert(1, ("Labour", shown(quote.of("labour"))))
    rows.append((total_in_words(quote), shown(quote.total)))
    if quote.missing:
        rows.append((f"Not in it yet: {'; '.join(_heads(quote.missing))}", "unknown"))
    rows += [(words, "not in it") for words in quote.excluded]
    if quote.deposit is not None and quote.balance is not None:
        rows += [("Deposit at the order", shown(quote.deposit)), ("Balance", shown(quote.balance))]
    if quote.valid_until is not None:
        rows.append(("Good until", quote.valid_until.isoformat()))
    elif quote.valid_days is not None:
        rows.append(("Good for", f"{quote.valid_days} days"))
    return tuple(rows)


def _heads(missing: Iterable[str]) -> list[str]:
    """What is missing, each once; of parts, which they are."""
    said = [words.split(": ") for words in missing]
    parts = "; ".join(dict.fromkeys(words[1] for words in said if words[0] == "parts" and len(words) > 1))
    heads = dict.fromkeys(words[0] for words in said)
    return [f"parts ({parts})" if head == "parts" and parts else head for head in heads]


def in_a_line(quote: Quote) -> str:
    """The total in whole dollars, as the head of a sheet says it; it never passes for more than it is."""
    dollars = f"${(quote.total + 50) // 100:,}"
    if not quote.missing:
        return dollars
    return f"{total_in_words(quote).lower()} {dollars}"


def _words_of(line: Charge) -> str:
    return line.what if line.kind == "parts" else f"{line.what}, {line.why}"


def total_in_words(quote: Quote) -> str:
    """What the total is called: it never passes for more than it is."""
    money = f" ({quote.currency})" if quote.currency else ""
    if not quote.missing:
        return f"Total{money}" if quote.taxed else f"Total before tax{money}"
    alone = all(line.kind in ("parts", "tax") for line in quote.lines)
    return f"Parts only{money}" if alone else f"At least{money}"
