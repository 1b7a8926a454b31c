"""Measures the fonts once: writes `fonts/widths.json`. Needs fonttools; run again when a font file changes.

python -m lakewright.documents.measure_fonts
"""

from __future__ import annotations

import json
from importlib import import_module
from pathlib import Path

FOLDER = Path(__file__).parent / "fonts"

RANGES = ((0x20, 0x24F), (0x2B0, 0x52F), (0x1E00, 0x1FFF), (0x2000, 0x22FF), (0x25A0, 0x26FF))
"""ours: the letters of Europe, punctuation, arrows and signs; any other letter is taken as one em wide."""


def measured(weight: str) -> dict[str, str]:
    """The characters of each advance width of a font, in its own units."""
    # By its name: a tool of development, which need not be installed where types are checked.
    ttlib = import_module("fontTools.ttLib")
    font = ttlib.TTFont(FOLDER / f"CharisSIL-{weight.capitalize()}.ttf")
    names, advances = font.getBestCmap(), font["hmtx"]
    by_width: dict[int, str] = {}
    for first, last in RANGES:
        for code in range(first, last + 1):
            if code in names:
                width = advances[names[code]][0]
                by_width[width] = by_width.get(width, "") + chr(code)
    return {str(width): by_width[width] for width in sorted(by_width)}


def main() -> None:
    """Write the table."""
    table = {"units_per_em": 2048, "regular": measured("regular"), "bold": measured("bold")}
    text = json.dumps(table, ensure_ascii=True, indent=0) + "\n"
    (FOLDER / "widths.json").write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
