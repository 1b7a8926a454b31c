"""The audit of a page: axe-core, by the rules of WCAG 2.0 to 2.2, levels A and AA."""

from __future__ import annotations

from functools import cache
from importlib import resources
from typing import Any

TAGS = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa")


@cache
def _source() -> str:
    """The text of axe-core, as the package for playwright carries it."""
    return resources.files("axe_playwright_python").joinpath("axe.min.js").read_text(encoding="utf-8")


def violations(view: Any) -> list[str]:
    """What axe-core finds wrong on a page, a line for each thing, and where."""
    view.evaluate(_source())
    found = view.evaluate(
        "tags => axe.run(document, { runOnly: { type: 'tag', values: tags }, resultTypes: ['violations'] })", list(TAGS)
    )
    assert found["passes"], "axe-core looked at nothing"
    return [
        f"{each['id']}: {node['target']}: {node['failureSummary']}"
        for each in found["violations"]
        for node in each["nodes"]
    ]


def version(view: Any) -> str:
    """Which axe-core looked."""
    view.evaluate(_source())
    said: str = view.evaluate("axe.version")
    return said
