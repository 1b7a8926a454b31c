"""The ten questions of the trade, in the order that decides. What each may be answered is read from the job's model."""

from __future__ import annotations

from dataclasses import dataclass

from lakewright.job.fields import Shape, shape_at
from lakewright.job.quantity import NOUNS, Noun


@dataclass(frozen=True)
class Ask:
    """One thing asked: a field of the job file, or something of which fields are made."""

    key: str
    words: str
    like: str = ""  # the field whose kind of answer it takes, where its own key is no field
    many: bool = False  # several answers, with commas between
    may_be_none: bool = False  # there may be none of it, and "none" is then an answer left blank
    after: str = ""  # asked only where this one was answered
    among: tuple[str, ...] = ()  # and, where given, with one of these

    @property
    def shape(self) -> Shape:
        """What it may be answered, as the job's model has it."""
        shape = shape_at(path_of(self.like or self.key))
        if shape is None:
            raise KeyError(self.like or self.key)
        return shape

    @property
    def noun(self) -> Noun | None:
        """How a quantity is named and spelled; None for what is no quantity."""
        dimension = self.shape.dimension
        if dimension is None:
            return None
        # A height is asked as how far over something: it takes the spelling of a length.
        return NOUNS[dimension.dimension] if dimension.kind == "height" else dimension.noun

    @property
    def hint(self) -> str:
        """What an answer looks like."""
        if self.shape.choices:
            return f"{' / '.join(self.shape.choices)}{'; more than one with commas' if self.many else ''}"
        if self.noun is not None:
            return f"such as {' or '.join(dict.fromkeys((self.noun.us_example, self.noun.si_example)))}"
        if self.shape.form == "counts":
            return "such as 20 beef cows, 3 horses"
        return "a whole number" if self.shape.form == "count" else "in words"

    def is_asked(self, answers: dict[str, str]) -> bool:
        """Whether what was answered before leads to it."""
        before = answers.get(self.after)
        return not self.after or (before is not None and (not self.among or before in self.among))


@dataclass(frozen=True)
class Question:
    """One of the ten, with the things it asks."""

    words: str
    asks: tuple[Ask, ...]
    decides: bool = False
    answers: bool = False  # a first answer may follow it


def path_of(key: str) -> tuple[str | int, ...]:
    """A dotted key as a path into the job file; a number is the place in a list.

    >>> path_of("readings.0.changed")
    ('readings', 0, 'changed')
    """
    return tuple(int(part) if part.isdigit() else part for part in key.split("."))


SOUNDED, DEEP = "site.soundings.0.distance", "site.soundings.0.depth"
OVER = "pump.height"

# common practice, no source: the ten questions of the trade, in its order; the first, fourth and fifth decide.
QUESTIONS: tuple[Question, ...] = (
    Question(
        "Which water is it?",
        (
            Ask("site.water", "its name"),
            Ask("site.position.coordinates", "where on it: a grid reference, or latitude and longitude"),
            Ask("site.kind", "what kind"),
            Ask("site.dam", "does a dam set its level"),
            Ask("site.elevation", "how high it lies above the sea"),
            Ask("job.title", "what the job is to be called; else as the water"),
        ),
        decides=True,
    ),
    Question(
        "What is there now, and what is it doing?",
        (
            Ask("have.there.what", "what is there; blank where nothing is", may_be_none=True),
            Ask("have.there.symptom", "what it does that it should not", after="have.there.what"),
            Ask("readings.0.changed", "what changed lately", after="have.there.symptom"),
            Ask("readings.0.first_minute", "what happens over the first minute", after="have.there.symptom"),
            Ask("holding.arrangement", "which valves hold the water", after="have.there.symptom"),
        ),
        answers=True,
    ),
    Question(
        "What is the water for?",
        (
            Ask("need.baths", "bathrooms"),
            Ask("need.hose", "does a hose run while people wash"),
            Ask("need.irrigation.area", "lawn or garden to water", may_be_none=True),
            Ask("animals", "animals to water", like="need.stock", may_be_none=True),
            Ask("need.drinking", "will anyone drink it"),
            Ask("need.public", "do renters, a camp or a second house use it"),
        ),
    ),
    Question(
        "Where would the pump stand?",
        (
            Ask("pump.height", "how high over the water today"),
            Ask("low", "how far below today the lowest water ever seen was", like="site.levels.waves"),
            Ask("flood", "how far above today the highest was", like="site.levels.waves"),
        ),
        decides=True,
    ),
    Question(
        "How far is it, and how deep?",
        (
            Ask("pump.distance", "from the pump to the water's edge"),
            Ask(
                "ten",
                "from the water's edge out to 10 ft (3 m) of water; blank where it is never so deep",
                like=SOUNDED,
            ),
            Ask("deep", "the deepest water within 300 ft (90 m)", like=DEEP),
            Ask("deep_at", "how far out that is", like=SOUNDED, after="deep"),
        ),
        decides=True,
    ),
    Question(
        "What is the bottom like?",
        (
            Ask("site.bed.kind", "what most of it is"),
            Ask("site.bed.soft", "push an oar in: how far does it sink"),
            Ask("site.weed", "weed"),
            Ask("site.mussels", "mussels"),
            Ask("site.boats", "boats over the intake"),
        ),
    ),
    Question(
        "What happens in winter?",
        (
            Ask("need.season", "the line stays in use, is hauled out, or stays and is drained"),
            Ask(
                "need.winter_by",
                "who does that, and starts it in spring",
                after="need.season",
                among=("hauled", "drained"),
            ),
            Ask("site.ice.shove", "does ice pile up on this shore"),
        ),
    ),
    Question(
        "Where does the water go?",
        (
            Ask("tap", "how far above the pump the highest tap is", like=OVER),
            Ask("rise", "how far above the pump tank and switch stand", like=OVER),
            Ask("delivery.length", "how far from the pump the tank is"),
            Ask("filters", "filters and treatment", like="treatment.steps.0.what", many=True, may_be_none=True),
        ),
    ),
    Question(
        "What power is there?",
        (
            Ask("power.supply", "what makes it"),
            Ask("power.source_power", "how much it gives", after="power.supply", among=("generator", "inverter")),
            Ask("power.breaker", "the breaker"),
            Ask("power.distance", "from the panel to the pump"),
        ),
    ),
    Question(
        "Who does the work, when, and how do they get there?",
        (
            Ask("have.owned.what", "parts that are owned already", may_be_none=True),
            Ask("job.wanted", "when the water is wanted"),
            Ask("access.work_by", "who does the work"),
            Ask("access.by", "the hardest way on the route"),
        ),
    ),
)
