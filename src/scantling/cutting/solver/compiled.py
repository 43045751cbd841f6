"""Loops over numbers, compiled where numba is installed (the extra `fast`); the same answers without it.

    @compiled
    def total(values: Floats) -> float: ...

A compiled function takes and gives numbers and arrays only, and may call others. It is compiled when it is
first called, and its machine code kept beside the module. Importing numba takes half a second: import a
module of compiled functions where it is called from, inside a function. What is as quick without, for little
work, is marked `compilable` and compiled when `compile_all` is called for its modules.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from importlib.util import find_spec
from types import ModuleType
from typing import Any, TypeVar, cast

F = TypeVar("F", bound=Callable[..., Any])

_compilable: set[Callable[..., Any]] = set()

IS_COMPILED = find_spec("numba") is not None


def compiled(function: F) -> F:
    """The function, compiled to machine code where that is to be had."""
    if not IS_COMPILED:
        return function
    from numba import njit

    made: Any = njit(cache=True)(function)
    return cast("F", made)


def compilable(function: F) -> F:
    """The function as it is, until `compile_all` is called for the modules that know it."""
    _compilable.add(function)
    return function


def compile_all(*modules: ModuleType) -> None:
    """From now on these modules call each other's compilable functions as machine code, where that is had."""
    for module in modules if IS_COMPILED else ():
        for name, value in list(vars(module).items()):
            if callable(value) and value in _compilable:
                setattr(module, name, _machine_code(value))


@cache
def _machine_code(function: Callable[..., Any]) -> Callable[..., Any]:
    return compiled(function)
