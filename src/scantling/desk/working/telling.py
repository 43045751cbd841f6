"""In the worker: saying how far a long job is."""

from __future__ import annotations

from collections.abc import Callable

Hear = Callable[[str], None]
_listeners: list[Hear] = []


def tell(words: str) -> None:
    """Say in a few words what is being done; whoever asked for the job hears it."""
    for hear in _listeners:
        hear(words)


def listen(hear: Hear) -> None:
    """From now on `hear` is told; the worker does this once, at its start."""
    _listeners.append(hear)
