"""Having a page ready in the background: what stops it is nobody's trouble."""

from __future__ import annotations

import asyncio
from typing import Any, cast

import pytest

from scantling.desk.desk import Desk
from scantling.desk.piece import routes
from scantling.desk.piece.answering import Shown
from scantling.desk.working import Cancelled


class _Desk:
    """As much of a desk as is asked for."""

    def __init__(self) -> None:
        self.shown = Shown()

    def kept(self, _: type[Any]) -> Any:
        return self.shown


def _warmed(monkeypatch: pytest.MonkeyPatch, stopped_by: Exception) -> None:
    async def stopped(*_: object) -> None:
        raise stopped_by

    monkeypatch.setattr(routes, "page_soon", stopped)
    monkeypatch.setattr(routes, "is_stopped", lambda *_: False)
    asyncio.run(routes._warm(cast("Desk", _Desk()), "shelf"))


def test_a_plan_that_is_stopped_while_nobody_waits_is_no_trouble(monkeypatch: pytest.MonkeyPatch) -> None:
    _warmed(monkeypatch, Cancelled())


def test_anything_else_is(monkeypatch: pytest.MonkeyPatch) -> None:
    with pytest.raises(ZeroDivisionError):
        _warmed(monkeypatch, ZeroDivisionError())
