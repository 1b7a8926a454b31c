"""The functions of the physics, found and not listed, so that a new one cannot be forgotten."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
from collections.abc import Callable
from typing import Any

import lakewright.physics

MODULES = [
    importlib.import_module(f"lakewright.physics.{module.name}")
    for module in pkgutil.iter_modules(lakewright.physics.__path__)
]

Function = Callable[..., Any]


def public_functions() -> dict[str, Function]:
    """Every public function by its name, those that build or pick curves included."""
    return {
        name: function
        for module in MODULES
        for name, function in inspect.getmembers(module, inspect.isfunction)
        if function.__module__ == module.__name__ and not name.startswith("_")
    }


def public_methods() -> dict[str, Function]:
    """Every public method of the classes of the physics, as Class.method."""
    return {
        f"{kind.__name__}.{name}": method
        for module in MODULES
        for _, kind in inspect.getmembers(module, inspect.isclass)
        if kind.__module__ == module.__name__
        for name, method in inspect.getmembers(kind, inspect.isfunction)
        if not name.startswith("_")
    }


def formulas() -> dict[str, Function]:
    """The functions whose every argument is an array or a tuple of arrays."""
    return {
        name: function
        for name, function in public_functions().items()
        if (given := inspect.signature(function).parameters.values())
        and all(str(each.annotation).startswith(("Array", "tuple[Array")) for each in given)
    }
