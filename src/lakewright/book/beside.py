"""Two edits of one text beside each other: where each differs from what both began with."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from difflib import SequenceMatcher

Opcode = tuple[str, int, int, int, int]

NOTHING: Opcode = ("equal", 0, 0, 0, 0)
"""Where neither text has a line."""

MOST_LINES = 20_000
"""ours: of more lines, where two texts differ is not looked for; a job file has some hundred."""


def beside(base: str, theirs: str, yours: str) -> str:
    """Every place where their text or yours differs from the base, line by line, and whether both do there.

    >>> print(beside("a\\nb\\nc\\n", "a\\nB\\nc\\n", "a\\nb\\nC\\n"))
    Line 2, changed by them and by you
      was     b
              c
      theirs  B
              c
      yours   b
              C
    >>> print(beside("a\\nb\\n", "a\\nb\\n", "a\\n"))
    Line 2, changed by you
      was     b
      theirs  (as it was)
      yours   (nothing)
    """
    lines = [text.splitlines() for text in (base, theirs, yours)]
    if sum(map(len, lines)) > MOST_LINES:
        return f"The texts have more than {MOST_LINES:,} lines: look at them as files."
    first, *others = lines
    codes = [list(SequenceMatcher(None, first, other, autojunk=False).get_opcodes()) for other in others]
    places = [place for low, high in _regions(codes) for place in _place(low, high, lines, codes)]
    return "\n".join(places) or "Only line ends differ."


def _regions(codes: Sequence[Sequence[Opcode]]) -> Iterator[tuple[int, int]]:
    """Ranges of the base's lines that either text changes; those that touch are one."""
    spans = sorted((code[1], code[2]) for each in codes for code in each if code[0] != "equal")
    while spans:
        low, high = spans.pop(0)
        while spans and spans[0][0] <= high:
            high = max(high, spans.pop(0)[1])
        yield low, high


def _place(low: int, high: int, lines: Sequence[list[str]], codes: Sequence[Sequence[Opcode]]) -> Iterator[str]:
    was = lines[0][low:high]
    theirs, yours = (other[_start(low, each) : _end(high, each)] for other, each in zip(lines[1:], codes, strict=True))
    by = [who for who, text in (("by them", theirs), ("by you", yours)) if text != was]
    alike = " alike" if len(by) == 2 and theirs == yours else ""
    yield f"Line {low + 1}, changed {' and '.join(by)}{alike}"
    for head, text in (("was", was), ("theirs", theirs), ("yours", yours)):
        shown = ["(as it was)"] if head != "was" and text == was else text or ["(nothing)"]
        for number, line in enumerate(shown):
            yield f"  {head if number == 0 else '':8}{line}"


def _start(at: int, codes: Sequence[Opcode]) -> int:
    """Where a range of the base that begins at a line begins in the other text."""
    _, low, _, start, _ = next((code for code in codes if code[1] <= at <= code[2]), NOTHING)
    return start + at - low


def _end(at: int, codes: Sequence[Opcode]) -> int:
    """Where a range of the base that ends before a line ends in the other text."""
    kind, low, _, start, end = next((code for code in reversed(codes) if code[1] <= at <= code[2]), NOTHING)
    return start + at - low if kind == "equal" else end
