"""Keep what numpy frees: a search makes and drops the same few arrays a million times."""

from __future__ import annotations

import ctypes
import sys
from functools import cache

# Source: GNU C library manual, 3.2.3.6, malloc tunable parameters; numbers of malloc.h.
M_TRIM_THRESHOLD = -1
M_MMAP_THRESHOLD = -3

KEPT = 1 << 28
"""ours: 256 MiB; a chunk's arrays are a tenth of it."""


@cache
def keep_freed_memory() -> bool:
    """Tell the C library not to give freed arrays back to the system between chunks.

    Returns
    -------
    whether it listened; elsewhere than on the GNU C library nothing is done
    """
    if not sys.platform.startswith("linux"):
        return False
    mallopt = getattr(ctypes.CDLL(None), "mallopt", None)
    if mallopt is None:
        return False
    return bool(mallopt(M_MMAP_THRESHOLD, KEPT)) and bool(mallopt(M_TRIM_THRESHOLD, KEPT))
