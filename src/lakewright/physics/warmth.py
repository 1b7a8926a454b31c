"""Tables of plastic by warmth, printed in degrees Fahrenheit: what they say between their rows, and at their edges."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from lakewright.physics.types import Array

HAIR = 1e-6
"""ours: an edge of a table given in F belongs to it, though a conversion to K and back loses the last bit [F]."""


class Fahrenheit:
    """Temperatures as such a table prints them: `degrees` [F], of temperatures [K]. Source: NIST SP 811 (2008), B.8."""

    def __init__(self, temperature: Array) -> None:
        self.degrees = 1.8 * temperature - 459.67

    def up_to(self, row: float) -> NDArray[np.bool_]:
        """Whether each is no higher than a row [F]."""
        found: NDArray[np.bool_] = self.degrees <= row + HAIR
        return found

    def beyond(self, row: float) -> NDArray[np.bool_]:
        """Whether each is no lower than a row [F]."""
        found: NDArray[np.bool_] = self.degrees >= row - HAIR
        return found

    def along(self, rows: Array, values: Array) -> Array:
        """What a table says, straight between its rows; its first value below them, nan above."""
        return np.where(self.up_to(rows[-1]), np.interp(self.degrees, rows, values), np.nan)
