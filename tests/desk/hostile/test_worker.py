"""A worker that is killed, at rest or at work: told, and the next question is answered by another."""

from __future__ import annotations

import asyncio
import os
import signal
import time
from io import BytesIO

import pytest
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route
from starlette.testclient import TestClient

from scantling.desk.app import desk_app
from scantling.desk.working import Cancelled, Planner
from scantling.desk.working.frames import put, taken


def kill(planner: Planner) -> None:
    process = planner._process
    assert process is not None
    os.kill(process.pid, signal.SIGKILL)


async def killed_at_work(planner: Planner) -> None:
    assert await planner.ask(len, "ab") == 2
    asked = asyncio.ensure_future(planner.ask(time.sleep, 300))
    while planner._begun is None:
        await asyncio.sleep(0.01)
    kill(planner)
    with pytest.raises(Cancelled):
        await asked


def test_killed_at_work_the_next_answer_comes() -> None:
    async def run() -> None:
        planner = Planner()
        try:
            await killed_at_work(planner)
            assert await planner.ask(len, "abc") == 3
            kill(planner)
            assert planner._process is not None
            planner._process.wait()
            assert await planner.ask(len, "abcd") == 4
            assert await planner.ask(len, "ab") == 2
        finally:
            planner.close()

    asyncio.run(run())


@pytest.mark.parametrize("share", [0.0, 0.02, 0.5, 0.99])
def test_half_a_frame_is_an_end(share: float) -> None:
    whole = BytesIO()
    put(whole, ("answer" * 5000, None))
    half = whole.getvalue()[: int(len(whole.getvalue()) * share)]
    with pytest.raises(EOFError):
        taken(BytesIO(half))


def test_a_page_whose_plan_was_stopped_says_so(tmp_path) -> None:
    async def stopped(request: Request) -> Response:
        raise Cancelled

    app: Starlette = desk_app(tmp_path)
    app.routes.append(Route("/stopped", stopped))
    with TestClient(app) as client:
        answer = client.get("/stopped")
    assert answer.status_code == 409
    assert "stopped" in answer.text
