"""How names are compared: people write one name in several ways."""

from __future__ import annotations

import re
import unicodedata


def folded(name: str) -> str:
    """A name as names are compared: small letters, with one blank for any blanks, dashes and underscores.

    >>> folded("Long_Arm  lake")
    'long arm lake'
    """
    return " ".join(re.split(r"[\s_-]+", unicodedata.normalize("NFKC", name).casefold())).strip()
