"""Questions that wait for each other, asked from a test that does not."""

from __future__ import annotations

import asyncio
from collections.abc import Coroutine
from concurrent.futures import ThreadPoolExecutor
from typing import Any, TypeVar

T = TypeVar("T")


def run_apart(asked: Coroutine[Any, Any, T]) -> T:
    """What is asked for, in a thread of its own: a browser's test may have left a loop running in this one."""
    with ThreadPoolExecutor(1) as apart:
        return apart.submit(asyncio.run, asked).result()
