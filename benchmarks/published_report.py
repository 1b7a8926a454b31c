"""Values by source and place: runs the tests of printed digits and lists where the digits are printed."""

from __future__ import annotations

import sys

import pytest

if __name__ == "__main__":
    sys.exit(pytest.main(["tests", "-q", "-m", "published", "--published-report"]))
