"""The quote: what the customer would have, why, for how much, and what it rests on; or the honest no."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from lakewright.documents.assumed import assumed_figure, assumed_of, is_confirmed
from lakewright.documents.flow import Flow, Said
from lakewright.documents.said import Sayer, Words, bold, filled, fixed, named, soft, status
from lakewright.documents.section import Section
from lakewright.state.bill import Line

SHOWN = 4
"""ours: parts of a station that a customer is told by name, the dearest; the pick ticket has them all."""
WHY = (
    "delivers_the_need", "taps_have_pressure", "reaches_cut_out", "lift_is_within_practice", "water_covers_the_inlet",
    "inlet_stays_below_the_ice", "stand_does_not_slide", "frozen_band_is_buried", "barriers_meet_their_targets",
)  # fmt: skip
"""ours: what a customer asks about first; the working has every finding."""
STANDINGS = (
    ("facts_told", "told", True),
    ("facts_measured", "measured", False),
    ("facts_looked_up", "looked up", False),
)


def quote_sheet(say: Sayer, drawn: Section) -> Flow:
    """The quote of a job.

    Parameters
    ----------
    say : report, job, facts stated, options, bill by station and price in words, under these names
    drawn : the section of the site, as wide as the page
    """
    flow = Flow(fixed("quote.name"), scale=drawn.scale)
    no = say.has("report.ways_out")
    title = [fixed("quote.no_head" if no else "quote.head"), *_title(say)]
    people = [words for name in ("customer", "prepared_by") for words in _person(say, name)]
    flow.heading(title, say("report.first_line"), people)
    if say.has("report.window"):
        flow.quiet(say("report.window"))
    flow.drawing(drawn.scene)
    flow.quiet(filled("quote.scale", Words(drawn.scale, "drawing.scale")))
    if no:
        _ways_out(flow, say)
    else:
        _offer(flow, say)
    _facts(flow, say)
    flow.part(fixed("common.cautions"))
    flow.bullets(say(f"report.cautions.{n}") for n in range(len(say.value("report.cautions"))))
    if not no:
        _terms(flow, say)
    return flow


def _title(say: Sayer) -> list[Words]:
    return [bold(say("report.title"))] if say.has("report.title") else []


def _person(say: Sayer, name: str) -> list[Words]:
    key = {"customer": "prepared_for", "prepared_by": "prepared_by"}[name]
    return filled(f"quote.{key}", say(f"job.job.{name}")) if say.has(f"job.job.{name}") else []


def _ways_out(flow: Flow, say: Sayer) -> None:
    flow.part(fixed("quote.ways_out"))
    flow.bullets(say(f"report.ways_out.{n}") for n in range(len(say.value("report.ways_out"))))
    flow.para(fixed("quote.ways_say"))


def _offer(flow: Flow, say: Sayer) -> None:
    if say.has("report.priced"):
        flow.part(fixed("quote.build"))
        flow.table(("34mm", "1fr"), "ll", (), list(_built(say)))
    flow.part(fixed("quote.why"))
    for name in WHY:
        word = say.value(f"report.findings.{name}.status")
        if word == "holds":
            flow.finding(word, _finding(say, name))
    _settle(flow, say)
    if say.has("options"):
        _options(flow, say)
    if say.has("report.priced"):
        _price(flow, say)


def _settle(flow: Flow, say: Sayer) -> None:
    """What fails, what nobody knows, what is tight; what waits for a choice alone in one row."""
    found = [each for each in say.value("report.findings") if _is_open(each.status, each.force)]
    if not found:
        return
    flow.part(fixed("quote.settle"))
    for each in found:
        if not each.waits_for_design:
            flow.finding(each.status, [status(each.status), *_finding(say, each.name), *_remedy(say, each.name)])
    waiting = [each.name for each in found if each.waits_for_design]
    if waiting:
        names = [Words(f"{named(name).text}{'' if name == waiting[-1] else ';'}", f"check.{name}") for name in waiting]
        flow.finding("unknown", [status("unknown"), bold(fixed("quote.waits")), *names])


def _is_open(word: str, force: str) -> bool:
    return force != "note" and word in ("fails", "unknown", "tight")


def _finding(say: Sayer, name: str) -> list[Words]:
    return [bold(named(name)), say(f"report.findings.{name}.message")]


def _remedy(say: Sayer, name: str) -> list[Words]:
    return (
        [soft(say(f"report.findings.{name}.remedy"))] if say.value(f"report.findings.{name}.status") == "fails" else []
    )


def _built(say: Sayer) -> Iterator[Sequence[Said]]:
    """A row a station: its dearest parts by name, and how many lines more."""
    for station, lines in say.value("bill").items():
        if station == "used up":
            continue
        shown = sorted(sorted(range(len(lines)), key=lambda n: -_worth(lines[n]))[:SHOWN])
        words: list[Words] = []
        for n in shown:
            words.append(say(f"bill.{station}.{n}.what", plus=";" if n != shown[-1] or len(lines) > SHOWN else ""))
        more = len(lines) - len(shown)
        if more:
            words += map(soft, filled("quote.build_smaller", Words(str(more), f"bill.{station}")))
        yield bold(fixed(f"quote.build_{station.replace(' ', '_')}")), words


def _worth(line: Line) -> float:
    """What a line costs; what is there already counts before all."""
    return float("inf") if line.have else float(line.price if line.unit == "m" else line.each)


def _options(flow: Flow, say: Sayer) -> None:
    """What else would hold, dearest facts first; and what comfort costs."""
    flow.part(fixed("quote.options"))
    flow.quiet(fixed("quote.options_say"))
    rows: list[Sequence[Said]] = []
    for n, option in enumerate(say.value("options.rows")):
        what: list[Words] = [fixed("quote.options_first")] if n == 0 else []
        what += [say(f"options.rows.{n}.parts.{m}") for m in range(len(option.parts))]
        rows.append((what, say(f"options.rows.{n}.hours"), bold(say(f"options.rows.{n}.price"))))
    flow.table(("1fr", "40mm", "36mm"), "llr", (), rows)
    for name in ("bought", "buys"):
        if say.has(f"options.{name}"):
            first = len(flow.rows)
            key = {"bought": "quote.comfort_cost", "buys": "quote.comfort_buy"}[name]
            flow.para(filled(key, bold(say(f"options.{name}.price")), say(f"options.{name}.check")))
            flow.bullets(
                filled("quote.comfort_change", *(say(f"options.{name}.changes.{m}.{part}") for part in (0, 2, 1)))
                for m in range(len(say.value(f"options.{name}.changes")))
            )
            flow.keep(first)


def _price(flow: Flow, say: Sayer) -> None:
    flow.part(fixed("quote.price"))
    last = len(say.value("price")) - 1
    body: list[Sequence[Said]] = []
    for n in range(last + 1):
        row = [say(f"price.{n}.{part}") for part in (0, 1)]
        body.append([bold(words) for words in row] if n == last else row)
    flow.table(("1fr", "34mm"), "lr", (), body, whole=True)
    for name in ("missing", "excluded"):
        rows = say.value(f"report.priced.quote.{name}")
        if rows:
            flow.label(fixed(f"quote.{name}"))
            flow.bullets(say(f"report.priced.quote.{name}.{n}") for n in range(len(rows)))


def _facts(flow: Flow, say: Sayer) -> None:
    """What it rests on by standing: what nobody has measured comes first, with a box to tick."""
    flow.part(fixed("quote.facts"))
    flow.quiet(fixed("quote.facts_changes"))
    rows = list(enumerate(say.value("stated")))
    _stated(flow, say, "facts_told", [n for n, each in rows if each.standing == "told"], True)
    taken = assumed_of(say)
    asked = [place for place, each in taken.items() if is_confirmed(each)]
    _assumed(flow, say, "facts_assumed", asked, True)
    _assumed(flow, say, "facts_record", [place for place, each in taken.items() if each.from_record], False)
    for name, word, boxes in STANDINGS[1:]:
        _stated(flow, say, name, [n for n, each in rows if each.standing == word], boxes)
    more = sum(not each.from_record for each in taken.values()) - len(asked)
    if more:
        flow.quiet(filled("quote.facts_more", Words(str(more), "report.assumed")))


def _stated(flow: Flow, say: Sayer, head: str, rows: Sequence[int], boxes: bool) -> None:
    if not rows:
        return
    flow.label(fixed(f"quote.{head}"))
    first = len(flow.rows)
    said = []
    for n in rows:
        words = [say(f"stated.{n}.name", plus=":"), bold(say(f"stated.{n}.text"))]
        more = [field for field in ("of", "since", "note") if say.has(f"stated.{n}.{field}")]
        words += [soft(say(f"stated.{n}.{field}", plus="" if field == more[-1] else ",")) for field in more]
        said.append(words)
    _listed(flow, said, boxes, first)


def _assumed(flow: Flow, say: Sayer, head: str, places: Sequence[str], boxes: bool) -> None:
    if not places:
        return
    flow.label(fixed(f"quote.{head}"))
    first = len(flow.rows)
    said = [
        [say(f"{place}.name", plus=":"), bold(assumed_figure(say, place)), soft(say(f"{place}.why"))]
        for place in places
    ]
    _listed(flow, said, boxes, first)


def _listed(flow: Flow, said: Sequence[Said], boxes: bool, first: int) -> None:
    """Rows in two columns, with boxes to tick or dashes."""
    if boxes:
        flow.steps(said, boxes=True)
    else:
        flow.bullets(said)
    flow.in_columns(first)


def _terms(flow: Flow, say: Sayer) -> None:
    """Terms and signatures, on one page: nobody signs under nothing."""
    first = len(flow.rows)
    flow.part(fixed("quote.terms"))
    quote = "report.priced.quote"
    rows: list[Said] = []
    if say.has(f"{quote}.valid_until"):
        rows.append(filled("quote.term_valid", say(f"{quote}.valid_until")))
    elif say.has(f"{quote}.valid_days"):
        rows.append(filled("quote.term_valid_days", say(f"{quote}.valid_days")))
    else:
        rows.append(fixed("quote.term_valid_open"))
    if say.has(f"{quote}.deposit"):
        rows.append(filled("quote.term_deposit", say(f"{quote}.deposit", "money"), say(f"{quote}.balance", "money")))
    else:
        rows.append(fixed("quote.term_deposit_open"))
    names = ("found", "permits", "drinking", "power", "codes")
    flow.bullets([*rows, *(fixed(f"quote.term_{name}") for name in names)])
    flow.part(fixed("quote.sign"))
    flow.fields([(fixed("quote.sign_customer"), fixed("quote.sign_shop"))])
    flow.keep(first)
