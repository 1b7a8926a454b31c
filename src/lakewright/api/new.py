"""Ten questions on the phone, what they decide, and the job file they make."""

from __future__ import annotations

import json
import math
import re
from collections.abc import Iterator, Mapping
from dataclasses import replace
from difflib import get_close_matches
from pathlib import Path

from lakewright import units
from lakewright.api.questions import QUESTIONS, Ask
from lakewright.api.read import assembled
from lakewright.errors import AskError, JobError
from lakewright.first_answer import Answer, first_answers
from lakewright.job.quantity import FieldProblem, Quantity, read_quantity
from lakewright.job.write import write_job
from lakewright.window import go_or_no as decide

Answers = dict[str, str]
"""What was answered, by the key of the ask; an ask nobody could answer is not there."""

NONE = ("none", "nothing", "nothing yet", "no", "0")
"""What people say where there is none of what they are asked for."""

TEN = {"SI": "3 m", "US": "10 ft"}
"""The depth that is asked after, in either system."""

ASKS = {ask.key: ask for question in QUESTIONS for ask in question.asks}


def taken(ask: Ask, said: str, before: Mapping[str, str] | None = None) -> str | None:
    """An answer as it is kept; None for one left blank, or where there is none.

    Parameters
    ----------
    ask, said : what was asked, and the answer as typed
    before : answers given already, which this one may not gainsay

    Raises
    ------
    LakewrightError for an answer that cannot be used, with what can
    """
    text = " ".join(said.split())
    if not text or (ask.may_be_none and text.lower() in NONE):
        return None
    if ask.many:
        return ", ".join(_choice(ask, each.strip()) for each in text.split(",") if each.strip()) or None
    if ask.shape.choices:
        return _choice(ask, text)
    if ask.shape.dimension:
        _quantity(ask, text)
    elif ask.shape.form == "count" and not re.fullmatch("[0-9]{1,9}", text):
        raise AskError(f"found {text!r}; wanted a whole number; write 1, 2, 3")
    elif ask.shape.form == "counts":
        text = ", ".join(f"{number} {name}" for name, number in _counted(text).items())
    _try(ask, text, before or {})
    _refuse_shallow(ask, text, before or {})
    return text


def _refuse_shallow(ask: Ask, text: str, before: Mapping[str, str]) -> None:
    """Refuse a deepest water under the ten feet that were said to be nearer."""
    if ask.key != "deep" or "ten" not in before:
        return
    ten = TEN[system_of(before)]
    if _quantity(ask, text).value < _quantity(ask, ten).value:
        raise AskError(f"found {text!r}, but {ten} of water is {before['ten']} out; wanted {ten} or more; ask again")


def _choice(ask: Ask, text: str) -> str:
    """The one choice that an answer begins, or is."""
    choices = ask.shape.choices
    typed = text.lower().replace("-", " ")
    near = [choice for choice in choices if choice.lower().replace("-", " ").startswith(typed)]
    whole = [choice for choice in near if choice.lower().replace("-", " ") == typed]
    if len(whole or near) != 1:
        close = get_close_matches(text.lower(), choices, n=1)
        guess = f"; did you mean {close[0]}?" if close else ""
        raise AskError(f"found {text!r}; wanted one of {' / '.join(choices)}{guess}")
    return (whole or near)[0]


def _quantity(ask: Ask, text: str) -> Quantity:
    dimension = ask.shape.dimension
    if dimension is None:
        raise KeyError(ask.key)
    try:
        return read_quantity(text, replace(dimension, may_be_open=False))
    except FieldProblem as problem:
        remedy = problem.remedy or f"write {problem.write}"
        raise AskError(f"found {problem.found}; wanted {problem.wanted}; {remedy}") from None


def _counted(text: str) -> dict[str, int]:
    """Names with a number each, as "20 beef cows, 3 horses"."""
    counts: dict[str, int] = {}
    for each in filter(None, (part.strip() for part in re.split(r",|;|\band\b", text))):
        found = re.fullmatch(r"([0-9]{1,5}) +(\S.*)", each)
        if found is None:
            raise AskError(f"found {each!r}; wanted a number and an animal; write 20 beef cows, 3 horses")
        counts[found[2]] = counts.get(found[2], 0) + int(found[1])
    return counts


def _try(ask: Ask, text: str, before: Mapping[str, str]) -> None:
    """Refuse what the job file it makes, with what was answered before, would be refused for."""
    try:
        assembled(job_text({**before, ask.key: text}, "2026-05-03"))
    except JobError as error:
        wrong = error.mistakes[0]
        raise AskError(f"found {wrong.found}; wanted {wrong.wanted}; {wrong.remedy}") from None


def system_of(answers: Mapping[str, str]) -> str:
    """The units most answers are in; those of the trade where none are told.

    >>> system_of({"pump.height": "3.5 m", "pump.distance": "12 m", "low": "3 ft"})
    'SI'
    """
    metric = []
    for key, said in answers.items():
        dimension, digits = ASKS[key].shape.dimension, re.search(r"[0-9]+(\.[0-9]+)?", said)
        if dimension and dimension.dimension in ("length", "area") and digits and float(digits.group()):
            factor = abs(_quantity(ASKS[key], said).low) / float(digits.group())
            # A metric unit is a power of ten of the SI's own.
            metric.append(factor > 0.0 and abs(math.log10(factor) - round(math.log10(factor))) < 1e-9)
    return "SI" if sum(metric) * 2 > len(metric) else "US"


def job_text(answers: Mapping[str, str], date: str) -> str:
    """The job file the answers make: quote grade, each quantity told on the day.

    Parameters
    ----------
    answers : by the keys of the asks
    date : of the call, as 2026-05-03; the caller's clock
    """
    system = system_of(answers)
    tables: dict[str, list[str]] = {}
    for table, line in (*_fields(answers, date), *_heights(answers, date, system)):
        tables.setdefault(table, []).append(line)
    if "readings.0" in tables:
        tables["readings.0"].insert(0, f"date = {date}")
    title = [] if "job.title" in answers else [f"title = {_quoted(answers.get('site.water', 'New job'))}"]
    head = [*title, f"date = {date}", 'grade = "quote"']
    head += [f'units = "{system}"', *tables.pop("job", [])]
    notes = _notes(answers)
    head += [f"note = {_quoted(notes)}"] if notes else []
    body = "".join(f"\n{_header(table)}\n" + "\n".join(lines) + "\n" for table, lines in sorted(tables.items()))
    return "[job]\n" + "\n".join(head) + "\n" + body + _rows(answers, system)


def _header(table: str) -> str:
    return f"[[{table.removesuffix('.0')}]]" if table.endswith(".0") else f"[{table}]"


def _fields(answers: Mapping[str, str], date: str) -> Iterator[tuple[str, str]]:
    """Answers that are fields as they stand, by their tables, and what is left to choose."""
    for key, said in answers.items():
        table, _, field = key.rpartition(".")
        if table:
            yield table, f"{field} = {_value(ASKS[key], said, date)}"
    if "animals" in answers:
        counts = ", ".join(f"{_quoted(name)} = {number}" for name, number in _counted(answers["animals"]).items())
        yield "need", f"stock = {{ {counts} }}"
    yield "suction", 'stock = "open"'
    yield "pump", 'stock = "open"'
    yield "delivery", 'tank = "open"'


def _heights(answers: Mapping[str, str], date: str, system: str) -> Iterator[tuple[str, str]]:
    """Heights from the water's level, of answers that were told from elsewhere."""
    if "low" in answers:
        low = -_quantity(ASKS["low"], answers["low"]).value
        yield "site.levels", f"low = {_told(_height(low, system), date)}"
    if "flood" in answers:
        yield "site.levels", f"flood = {_told(answers['flood'], date)}"
    if "pump.height" not in answers:
        return
    pump = _quantity(ASKS["pump.height"], answers["pump.height"]).value
    for key, field in (("rise", "height"), ("tap", "tap_height")):
        if key in answers:
            height = _height(pump + _quantity(ASKS[key], answers[key]).value, system)
            yield "delivery", f"{field} = {_told(height, date)}"


def _height(height: float, system: str) -> str:
    """A height as the file has it: whole, for others are added to it."""
    return units.show(height, "height", system, most=units.EVERY_DIGIT)


def _notes(answers: Mapping[str, str]) -> str:
    """What was told and has no place while something else is not known."""
    lost = [key for key in ("rise", "tap") if key in answers and "pump.height" not in answers]
    lost += ["deep"] if "deep" in answers and "deep_at" not in answers else []
    return "; ".join(f"{ASKS[key].words}: {answers[key]}" for key in lost)


def _rows(answers: Mapping[str, str], system: str) -> str:
    """Soundings, with the stand at the last of them, and the steps of the treatment."""
    steps = filter(None, answers.get("filters", "").split(", "))
    text = "".join(f"\n[[treatment.steps]]\nwhat = {_quoted(step)}\n" for step in steps)
    points = [("0 m", "0 m") if system == "SI" else ("0 ft", "0 ft")]
    if "ten" in answers:
        points.append((answers["ten"], TEN[system]))
    if "deep" in answers and "deep_at" in answers:
        points.append((answers["deep_at"], answers["deep"]))
    # Two depths at one distance are one place, and the deeper was sounded last.
    at = {_quantity(ASKS["ten"], distance).value: (distance, depth) for distance, depth in points}
    rows = [at[distance] for distance in sorted(at)]
    if len(rows) == 1:
        return text
    text += "".join(
        f"\n[[site.soundings]]\ndistance = {_quoted(distance)}\ndepth = {_quoted(depth)}\n" for distance, depth in rows
    )
    return text + f"\n[stand]\nat = {_quoted(rows[-1][0])}\n"


def _value(ask: Ask, said: str, date: str) -> str:
    if ask.shape.form == "count":
        return str(int(said))
    return _told(said, date) if ask.shape.dimension else _quoted(said)


def _told(said: str, date: str) -> str:
    return f"{{ value = {_quoted(said)}, told = {date} }}"


def _quoted(text: str) -> str:
    # JSON's quoting is TOML's, but for DEL, which TOML bars.
    return json.dumps("".join(" " if ord(c) < 32 or ord(c) == 127 else c for c in text), ensure_ascii=False)


DECIDING = ("pump.height", "days.level", "site.flood", "site.elevation")
"""The facts that go or no-go hangs on."""


def go_or_no(answers: Mapping[str, str], date: str, file: Path | None = None) -> tuple[bool, str, tuple[str, ...]]:
    """Whether to go on asking, the line that says so, and the ways out where a suction pump will not do.

    Parameters
    ----------
    answers, date : as `job_text` takes them
    file : the job file to be, beside which the record of its water is looked for
    """
    job, _, assembly = assembled(job_text(answers, date), file)
    go, line, ways = decide(assembly.facts, job.job.units)
    guessed = [each.name for each in assembly.assumed if each.key in DECIDING and not each.from_record]
    if guessed:
        line += f" Assumed, since nobody has said: {', '.join(guessed)}."
    return go, line, ways


def answers_now(answers: Mapping[str, str], date: str, file: Path | None = None) -> tuple[Answer, ...]:
    """What the caller can be told of what is there already; nothing where nobody complains."""
    job, _, assembly = assembled(job_text(answers, date), file)
    return first_answers(job, assembly.facts)


def write_new(file: Path, answers: Mapping[str, str], date: str) -> None:
    """Write the job file the answers make.

    Raises
    ------
    AskError where it cannot be written there
    """
    try:
        write_job(file, job_text(answers, date))
    except OSError as error:
        raise AskError(
            f"found {error.strerror or error} at {file}; wanted a folder to write in; make it, or name another"
        ) from None


def refuse_old(file: Path) -> None:
    """Refuse a file that is there, and a folder that is not, before anything is asked.

    Raises
    ------
    AskError with what to do
    """
    if file.exists():
        raise AskError(f"{file} is there already; name another file")
    if not file.resolve().parent.is_dir():
        raise AskError(f"{file.parent} is no folder; make it, or name another")
