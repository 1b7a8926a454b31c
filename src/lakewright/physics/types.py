"""The one array type of the physics: floats, at least one-dimensional, C-ordered."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Index = NDArray[np.intp]

GRAVITY = 9.80665
"""Standard gravity [m/s2]. Source: BIPM, The International System of Units, 9th ed. 2019 (3rd CGPM, 1901)."""
