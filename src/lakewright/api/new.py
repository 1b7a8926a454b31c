"""Ten questions on the phone, in the order that decides, and the job file they make."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches

from lakewright import units
from lakewright.errors import AskError, UnitError

Answers = dict[str, str]
"""What was answered, by the key of the ask; an ask nobody could answer is not there."""


@dataclass(frozen=True)
class Ask:
    """One thing asked: where it goes in the job file, in which words, and what may be answered."""

    key: str
    words: str
    dimension: str = ""  # a quantity, read by `units`
    choices: tuple[str, ...] = ()  # one of these words
    whole: bool = False  # a plain whole number

    @property
    def hint(self) -> str:
        """What an answer looks like."""
        if self.choices:
            return " / ".join(self.choices)
        if self.dimension:
            return f"such as {EXAMPLES[self.dimension]}"
        return "a whole number" if self.whole else "in words"


@dataclass(frozen=True)
class Question:
    """One of the ten, with the things it asks."""

    words: str
    asks: tuple[Ask, ...]
    decides: bool = False


EXAMPLES = {"length": "12 ft", "pressure": "30 psi"}
YES_NO = ("yes", "no", "unknown")
HOW_MUCH = ("none", "some", "many", "unknown")

# common practice, no source: the ten questions of the trade, in its order; the first, fourth and fifth decide.
QUESTIONS: tuple[Question, ...] = (
    Question(
        "Which water is it?",
        (
            Ask("site.water", "its name"),
            Ask("site.kind", "what kind", choices=("lake", "stream", "pond", "tank", "reservoir")),
            Ask("site.dam", "does a dam set its level", choices=YES_NO),
            Ask("site.elevation", "how high it lies above the sea", dimension="length"),
        ),
        decides=True,
    ),
    Question("What is there now, and what is it doing?", (Ask("have.what", "what is there"),)),
    Question(
        "What is the water for?",
        (
            Ask("need.baths", "bathrooms", whole=True),
            Ask("need.hose", "does a hose run while people wash", choices=YES_NO),
            Ask("need.drinking", "will anyone drink it", choices=YES_NO),
            Ask("need.public", "do renters, a camp or a second house use it", choices=YES_NO),
        ),
    ),
    Question(
        "Where would the pump stand?",
        (
            Ask("pump.height", "how high over the water today", dimension="length"),
            Ask("low", "how far below today the lowest water ever seen was", dimension="length"),
            Ask("flood", "how far above today the highest was", dimension="length"),
        ),
        decides=True,
    ),
    Question(
        "How far is it, and how deep?",
        (
            Ask("pump.distance", "from the pump to the water's edge", dimension="length"),
            Ask("ten", "from the water's edge out to 10 ft (3 m) of water", dimension="length"),
            Ask("deep", "the deepest water within 300 ft (90 m)", dimension="length"),
            Ask("deep_at", "how far out that is", dimension="length"),
        ),
        decides=True,
    ),
    Question(
        "What is the bottom like?",
        (
            Ask(
                "site.bed.kind",
                "what it is",
                choices=("rock", "boulders", "gravel", "sand", "silt", "mud", "clay", "weed", "unknown"),
            ),
            Ask("site.bed.soft", "push an oar in: how far does it sink", dimension="length"),
            Ask("site.weed", "weed", choices=HOW_MUCH),
            Ask("site.mussels", "mussels", choices=HOW_MUCH),
            Ask("site.boats", "boats over the intake", choices=HOW_MUCH),
        ),
    ),
    Question(
        "What happens in winter?",
        (
            Ask("need.season", "the line", choices=("year-round", "hauled", "drained")),
            Ask("site.ice.shove", "does ice pile up on this shore", choices=YES_NO),
        ),
    ),
    Question(
        "Where does the water go?",
        (
            Ask("rise", "how far above the pump the tank or house stands", dimension="length"),
            Ask("delivery.length", "how far from the pump it is", dimension="length"),
        ),
    ),
    Question(
        "What power is there?",
        (
            Ask("power.supply", "what makes it", choices=("grid", "generator", "inverter", "unknown")),
            Ask("power.distance", "from the panel to the pump", dimension="length"),
        ),
    ),
    Question(
        "Who does the work, and how do they get there?",
        (Ask("access.by", "the hardest way on the route", choices=("road", "boat", "steps", "carry")),),
    ),
)


def taken(ask: Ask, said: str) -> str | None:
    """An answer as it is kept; None for one left blank.

    Raises
    ------
    UnitError, AskError for an answer that cannot be used, with what can
    """
    text = said.strip()
    if not text:
        return None
    if ask.choices:
        near = [choice for choice in ask.choices if choice.startswith(text.lower())]
        near = near[:1] if len(near) > 1 and text.lower() in near else near
        if len(near) != 1:
            close = get_close_matches(text.lower(), ask.choices, n=1)
            raise AskError(
                f"found {text!r}; wanted one of {' / '.join(ask.choices)}"
                + (f"; did you mean {close[0]}?" if close else "")
            )
        return near[0]
    if ask.whole:
        if not text.isdigit():
            raise AskError(f"found {text!r}; wanted a whole number; write 1, 2, 3")
        return text
    if ask.dimension:
        amount = units.read_amount(text, ask.dimension)
        if amount.low < 0.0 and ask.key not in ("pump.height", "rise"):
            raise UnitError(repr(text), "a distance without a sign", "write how far, as in 3 ft")
    return text


def job_text(answers: Mapping[str, str], date: str) -> str:
    """The job file the answers make: quote grade, each quantity told on the day.

    Parameters
    ----------
    answers : by the keys of the asks
    date : of the call, as 2026-05-03; the caller's clock
    """
    tables: dict[str, list[str]] = {}

    def put(table: str, line: str) -> None:
        tables.setdefault(table, []).append(line)

    asks = {ask.key: ask for question in QUESTIONS for ask in question.asks}
    for key, said in answers.items():
        table, _, field = key.rpartition(".")
        if not table or key == "have.what":
            continue
        put(table, f"{field} = {_value(asks[key], said, date)}")
    low, flood = answers.get("low"), answers.get("flood")
    if low is not None:
        put("site.levels", f'low = {{ value = "{_less_than_nothing(low)}", told = {date} }}')
    if flood is not None:
        put("site.levels", f'flood = {{ value = "{flood}", told = {date} }}')
    if "rise" in answers and "pump.height" in answers:
        height = units.read(answers["pump.height"], "length") + units.read(answers["rise"], "length")
        put("delivery", f'height = {{ value = "{units.show(height, "height", "US")}", told = {date} }}')
    if "have.what" in answers:
        put("have.there", f"what = {_quoted(answers['have.what'])}")
    put("pump", 'stock = "open"')
    put("delivery", 'tank = "open"')
    head = ["[job]", f"title = {_quoted(answers.get('site.water', 'New job'))}", f"date = {date}", 'grade = "quote"']
    body = [f"\n[{table}]\n" + "\n".join(lines) for table, lines in sorted(tables.items())]
    return "\n".join(head) + "\n" + "\n".join(body) + "\n" + _soundings(answers) + "\n"


def go_or_no(answers: Mapping[str, str], date: str) -> tuple[bool, str, tuple[str, ...]]:
    """Whether to go on asking, the line that says so, and the ways out where a suction pump will not do."""
    from lakewright.job.read import read_job_text
    from lakewright.report import go_or_no as decide
    from lakewright.state.assemble import facts_of
    from lakewright.stock.load import load_stock

    job = read_job_text(job_text(answers, date))
    return decide(facts_of(job, load_stock()).facts, job.job.units)


def _soundings(answers: Mapping[str, str]) -> str:
    points = [("0 ft", "0 ft")]
    if "ten" in answers:
        points.append((answers["ten"], "10 ft"))
    if "deep" in answers and "deep_at" in answers:
        points.append((answers["deep_at"], answers["deep"]))
    points.sort(key=lambda point: units.read_amount(point[0], "length").value)
    if len(points) == 1:
        return ""
    rows = "".join(f'\n[[site.soundings]]\ndistance = "{at}"\ndepth = "{depth}"\n' for at, depth in points)
    return rows + f'\n[stand]\nat = "{points[-1][0]}"\n'


def _value(ask: Ask, said: str, date: str) -> str:
    if ask.whole:
        return said
    return f'{{ value = "{said}", told = {date} }}' if ask.dimension else _quoted(said)


def _less_than_nothing(said: str) -> str:
    amount = units.read_amount(said, "length")
    return units.show(-amount.value, "height", "US")


def _quoted(text: str) -> str:
    plain = text.replace("\\", "\\\\").replace('"', '\\"')
    return '"' + "".join(" " if ord(c) < 32 else c for c in plain) + '"'
