"""The words that nothing printed may say of water, stand or job: they promise what nobody here can know."""

from __future__ import annotations

import re

NEVER_SAID = re.compile(
    r"\b(un)?(safe|safely|safety|approved|approval|compliant|compliance|certified|guarante(?:e|es|ed))\b", re.IGNORECASE
)
"""As whole words; a name that has one in it, as a publisher's, is told apart where it is met."""
