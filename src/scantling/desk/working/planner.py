"""The pages' side of a worker process: ask, wait, remember, cancel."""

from __future__ import annotations

import asyncio
import contextlib
import subprocess
import sys
import time
from collections import OrderedDict
from collections.abc import Callable
from threading import Lock
from typing import Any, TypeVar

from scantling.desk.working.asked import Trouble
from scantling.desk.working.frames import put, taken
from scantling.desk.working.telling import Hear

T = TypeVar("T")
REMEMBERED = 80
Key = tuple[Callable[..., Any], tuple[Any, ...]]


class Cancelled(Exception):
    """The job was cancelled before it answered."""


class Planner:
    """One warm worker process. Equal questions are asked once; answers are immutable and shared.

    A job is a function of an importable module, and gives plain data.
    """

    def __init__(self) -> None:
        self._process: subprocess.Popen[bytes] | None = None
        self._turn = asyncio.Lock()
        self._starting = Lock()
        self._closed = False
        self._begun: float | None = None  # when the job under way began
        self._known: OrderedDict[Key, asyncio.Task[Any]] = OrderedDict()

    async def ask(self, job: Callable[..., T], *arguments: Any, hear: Hear | None = None) -> T:
        """What `job(*arguments)` gives. Arguments must be hashable and picklable.

        `hear` is called, in another thread, with the words the job tells while it works.

        Raises
        ------
        ReadError
            What was asked cannot be worked out: where, and what to write instead.
        Conflict
            The words a job was to change are others by now.
        Cancelled
            Somebody called `cancel`, or the process died.
        """
        answer: T = await asyncio.shield(self._task((job, arguments), hear))
        return answer

    def begin(self, job: Callable[..., Any], *arguments: Any) -> None:
        """Have a job done that nobody waits for; what is asked later comes after it."""
        self._task((job, arguments), None)

    def known(self, job: Callable[..., T], *arguments: Any) -> T | None:
        """The answer, if it has been given already; never waits."""
        task = self._known.get((job, arguments))
        done = task is not None and task.done() and not task.cancelled() and task.exception() is None
        return task.result() if task is not None and done else None

    def cancel(self) -> None:
        """Kill the process, and with it whatever it works on; the next question starts another."""
        process = self._process  # another thread may begin a new one meanwhile
        if process is not None:
            process.kill()
            process.wait()

    def hurry(self, patience: float) -> None:
        """Something newer waits: drop the job under way once it has run for `patience` seconds in all."""
        begun = self._begun
        if begun is not None:
            left = begun + patience - time.monotonic()
            asyncio.get_running_loop().call_later(max(left, 0), self._drop, begun)

    def _drop(self, begun: float) -> None:
        if self._begun == begun:
            self.cancel()

    def start(self) -> None:
        """Have the process ready. Raises Cancelled once it was ended for good."""
        with self._starting:
            if self._closed:
                raise Cancelled
            if self._process is not None and self._process.poll() is not None:
                self._end(self._process)
            if self._process is None:
                self._process = subprocess.Popen(
                    [sys.executable, "-m", "scantling.desk.working.worker"],
                    stdin=subprocess.PIPE,
                    stdout=subprocess.PIPE,
                )

    def close(self) -> None:
        """End the process for good, and begin none that is only on its way."""
        with self._starting:
            self._closed = True
            if self._process is not None:
                self._end(self._process)

    def _end(self, process: subprocess.Popen[bytes]) -> None:
        process.kill()
        process.wait()
        for pipe in (process.stdin, process.stdout):
            if pipe is not None:
                with contextlib.suppress(OSError):  # words on the way to a process that is gone
                    pipe.close()
        if self._process is process:
            self._process = None

    def _task(self, key: Key, hear: Hear | None) -> asyncio.Task[Any]:
        task = self._known.get(key)
        if task is None or _gone(task):
            task = asyncio.ensure_future(self._answer(key, hear or _unheard))
            task.add_done_callback(_looked_at)
            self._known[key] = task
            while len(self._known) > REMEMBERED:
                self._known.popitem(last=False)
        self._known.move_to_end(key)
        return task

    async def _answer(self, key: Key, hear: Hear) -> Any:
        async with self._turn:
            self._begun = time.monotonic()
            try:
                answer, trouble = await asyncio.to_thread(self._talk, key, hear)
            finally:
                self._begun = None
        if isinstance(trouble, Trouble):
            raise trouble.raised()
        return answer

    def _talk(self, key: Key, hear: Hear) -> tuple[Any, Trouble | None]:
        self.start()
        process = self._process
        assert process is not None
        assert process.stdin is not None
        assert process.stdout is not None
        try:
            put(process.stdin, key)
            while isinstance(words := taken(process.stdout), str):
                hear(words)
        except (EOFError, OSError, ValueError):
            self._end(process)  # it may take a moment to die; nobody shall ask it again
            raise Cancelled from None
        answer: tuple[Any, Trouble | None] = words
        return answer


def _unheard(_: str) -> None:
    """Nobody is listening."""


def _gone(task: asyncio.Task[Any]) -> bool:
    """Whether a task ended without an answer that can be given again."""
    return task.done() and (task.cancelled() or isinstance(task.exception(), Cancelled))


def _looked_at(task: asyncio.Task[Any]) -> None:
    """A trouble nobody waited for is told on its page, not on the console."""
    if not task.cancelled():
        task.exception()
