"""Say what a check asks, of what, against which figures, and where they come from."""

from __future__ import annotations

from dataclasses import dataclass
from difflib import get_close_matches

from lakewright.checks.registry import CHECKS
from lakewright.checks.verdict import Check
from lakewright.errors import AskError
from lakewright.sources import Source, load_sources
from lakewright.state.limits import LimitRow, limit_rows
from lakewright.state.screen_rules import every_rule


@dataclass(frozen=True)
class Explanation:
    """A check, its figures and its sources."""

    check: Check
    figures: tuple[LimitRow, ...]
    sources: tuple[Source, ...]
    rules: tuple[str, ...]  # of screens, where it is one of theirs that the check judges by


def explain(name: str) -> Explanation:
    """Explain a check by its name, or by that of a limit it uses.

    Raises
    ------
    AskError for a name that is no check's, with the nearest ones
    """
    wanted = name.strip().replace(" ", "_").replace("-", "_").lower()
    check = next((c for c in CHECKS if wanted in (c.name, *c.figures)), None)
    if check is None:
        names = [c.name for c in CHECKS]
        near = get_close_matches(wanted, names, n=3, cutoff=0.4) or names
        raise AskError(f"found {name!r}; wanted the name of a check; write one of: {', '.join(near)}")
    figures = tuple(limit_rows()[figure] for figure in check.figures)
    sources = load_sources()
    ids = dict.fromkeys([check.source, *(figure.source for figure in figures)])
    rules = every_rule("US") if any(fact.startswith("site.screen_") for fact in check.needs) else ()
    return Explanation(check, figures, tuple(sources[each] for each in ids), rules)


def every_check() -> tuple[Check, ...]:
    """All checks, in the order water flows."""
    return CHECKS
