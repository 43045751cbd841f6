"""A worker process: asked once, remembered, stopped, hurried, come back from death."""

from __future__ import annotations

import asyncio
import math
import os
import time
from collections.abc import Awaitable, Callable

import pytest

from scantling.desk.working import Cancelled, Planner
from scantling.errors import ReadError
from scantling.piece import read_piece_text


def run(use: Callable[[Planner], Awaitable[None]]) -> None:
    """One test in a loop of its own, with a worker of its own."""

    async def whole() -> None:
        planner = Planner()
        try:
            await use(planner)
        finally:
            planner.close()

    asyncio.run(whole())


def test_an_equal_question_is_asked_once() -> None:
    async def use(planner: Planner) -> None:
        assert planner.known(os.getpid) is None
        first = await planner.ask(os.getpid)
        assert first != os.getpid()
        assert await planner.ask(os.getpid) == first
        assert planner.known(os.getpid) == first
        assert await planner.ask(math.gcd, 12, 18) == 6

    run(use)


def test_what_is_stopped_is_over_at_once_and_the_next_question_is_answered() -> None:
    async def use(planner: Planner) -> None:
        first = await planner.ask(os.getpid)
        long = asyncio.ensure_future(planner.ask(time.sleep, 60))
        await asyncio.sleep(0.2)
        begun = time.monotonic()
        planner.cancel()
        with pytest.raises(Cancelled):
            await long
        assert time.monotonic() - begun < 5
        assert await planner.ask(os.getppid) == os.getpid()
        assert await planner.ask(os.getpid) == first  # remembered

    run(use)


def test_a_process_stopped_while_idle_is_replaced() -> None:
    async def use(planner: Planner) -> None:
        await planner.ask(os.getpid)
        planner.cancel()
        planner.cancel()
        assert await planner.ask(math.gcd, 4, 6) == 2

    run(use)


def test_a_long_job_is_dropped_for_what_waits_behind_it() -> None:
    async def use(planner: Planner) -> None:
        await planner.ask(os.getpid)
        long = asyncio.ensure_future(planner.ask(time.sleep, 60))
        await asyncio.sleep(0.1)
        planner.hurry(0.3)
        begun = time.monotonic()
        assert await planner.ask(math.gcd, 9, 6) == 3
        assert time.monotonic() - begun < 20
        with pytest.raises(Cancelled):
            await long

    run(use)


def test_a_short_job_is_left_to_end_and_its_follower_is_not_dropped_for_it() -> None:
    async def use(planner: Planner) -> None:
        await planner.ask(os.getpid)
        short = asyncio.ensure_future(planner.ask(time.sleep, 0.2))
        await asyncio.sleep(0.05)
        planner.hurry(0.6)
        follower = asyncio.ensure_future(planner.ask(time.sleep, 1.2))
        assert await short is None
        assert await follower is None

    run(use)


def test_nobody_is_hurried_where_nothing_runs() -> None:
    async def use(planner: Planner) -> None:
        planner.hurry(0)
        assert await planner.ask(math.gcd, 10, 15) == 5

    run(use)


def test_trouble_comes_back_as_it_was() -> None:
    async def use(planner: Planner) -> None:
        with pytest.raises(ReadError) as told:
            await planner.ask(read_piece_text, "piece: {", "x.yaml")
        assert told.value.place is not None
        assert told.value.place.file == "x.yaml"

    run(use)


def test_a_planner_that_is_ended_begins_nothing_that_waits() -> None:
    async def use(planner: Planner) -> None:
        asked = asyncio.ensure_future(planner.ask(math.gcd, 4, 6))
        await asyncio.sleep(0)  # it is on its way; its process has not begun
        planner.close()
        with pytest.raises(Cancelled):
            await asked

    run(use)
