"""Plain values as JSON has them: nothing in the place of a number that nobody knows."""

from __future__ import annotations

import math
from typing import Any


def known(value: Any) -> Any:
    """The same with nothing in the place of a number that nobody knows.

    >>> known({"low": math.nan, "read": (1.0, math.inf)})
    {'low': None, 'read': [1.0, None]}
    """
    if isinstance(value, dict):
        return {key: known(each) for key, each in value.items()}
    if isinstance(value, list | tuple):
        return [known(each) for each in value]
    return None if isinstance(value, float) and not math.isfinite(value) else value
