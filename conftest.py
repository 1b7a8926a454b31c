"""How hard generated tests try: every day the same few cases, in `make laws` many and new ones."""

from __future__ import annotations

from hypothesis import HealthCheck, settings

# No deadline: a slow machine is no fault of the code, and time is measured elsewhere.
settings.register_profile("everyday", max_examples=200, deadline=None, derandomize=True)
settings.register_profile("many", max_examples=10_000, deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("everyday")
