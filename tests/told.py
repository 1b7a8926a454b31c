"""A job as it is told on the telephone, next to nothing said: tests set what they ask about."""

from __future__ import annotations

TOLD = """
[job]
grade = "quote"

[need]
baths = 2

[site]
kind = "lake"

[[site.soundings]]
distance = "0 ft"
depth = "0 ft"

[[site.soundings]]
distance = "120 ft"
depth = "25 ft"

[suction]
stock = "open"

[pump]
height = "6 ft"
distance = "30 ft"
stock = "open"
"""
