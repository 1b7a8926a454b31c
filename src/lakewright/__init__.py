"""Lakewright: small surface-water supplies, from the lake to the tap, with the working shown."""

__version__ = "0.1.0"
