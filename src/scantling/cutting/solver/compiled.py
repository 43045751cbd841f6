"""Loops over numbers, compiled where numba is installed (the extra `fast`); the same answers without it.

    @compiled
    def total(values: Floats) -> float: ...

A compiled function takes and gives numbers and arrays only, and may call others. It is compiled when it is
first called, and its machine code kept beside the module. Importing numba takes half a second: import a
module of compiled functions where it is called from, inside a function.
"""

from __future__ import annotations

from collections.abc import Callable
from importlib.util import find_spec
from typing import Any, TypeVar, cast

F = TypeVar("F", bound=Callable[..., Any])

IS_COMPILED = find_spec("numba") is not None


def compiled(function: F) -> F:
    """The function, compiled to machine code where that is to be had."""
    if not IS_COMPILED:
        return function
    from numba import njit

    made: Any = njit(cache=True)(function)
    return cast("F", made)
