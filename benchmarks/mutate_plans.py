"""Spoil piece and shop files and plan each: every one must end in a plan or in an error with its place.

    python benchmarks/mutate_plans.py [how many] [seed] [first number]

Two workers, each case with 5 s of processor time. Reports the answers by kind and every answer that
should not be: a traceback, an error without a place or with one outside its file, a number that is none,
a cut plan the verifier refuses, a hang. One plan in twenty is also written as a packet.
"""

from __future__ import annotations

import math
import multiprocessing as mp
import resource
import signal
import sys
import tempfile
import time
import traceback
from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields, is_dataclass
from pathlib import Path
from types import FrameType

from spoiling import Case, spoiled

from scantling.errors import ReadError
from scantling.plan import Plan

SECONDS = 5.0  # of processor time for one plan
PACKET_EVERY = 20
PACKET_SECONDS = 30.0
MEMORY = 4 << 30  # bytes a worker may take
DEAD_AFTER = 60.0  # seconds on the clock without an answer


@dataclass(frozen=True)
class Answer:
    """What came of one case; `wrong` groups what should not have been, `detail` tells it whole."""

    number: int
    kind: str
    seconds: float
    wrong: str = ""
    detail: str = ""


class TooLongError(BaseException):
    """The time for one case is used up; no handler of the program's may swallow it."""


def answer_of(number: int, seed: int, folder: Path) -> Answer:
    """Write one spoiled folder and plan it."""
    case = spoiled(number, seed)
    for name, text in case.texts.items():
        (folder / name).write_text(text, encoding="utf-8", errors="surrogatepass", newline="")
    start = time.process_time()
    try:
        with _limit(SECONDS):
            kind, wrong, detail = _planned(case, folder)
    except TooLongError as error:
        kind, wrong, detail = "!hang", f"hang at {_where(error)}", _story(error)
    except Exception as error:
        kind, wrong = f"!{type(error).__name__}", f"{type(error).__name__} at {_where(error)}"
        detail = _story(error)
    return Answer(number, kind, time.process_time() - start, wrong, detail)


def _planned(case: Case, folder: Path) -> tuple[str, str, str]:
    from scantling.piece import read_piece
    from scantling.plan import make_plan
    from scantling.shop import read_shop

    try:
        document = read_piece(folder / case.piece)
        shop = read_shop(folder / case.shop)
        plan = make_plan(document, shop)
    except ReadError as error:
        fault = _place_fault(error, folder)
        return type(error).__name__, f"{fault} at {_where(error)}" if fault else "", str(error)
    if case.number % PACKET_EVERY == 0:
        _write_packet(plan, folder)
    faults = plan_faults(plan)
    return "plan", faults[0].split(":")[0] if faults else "", "\n".join(faults)


def _write_packet(plan: Plan, folder: Path) -> None:
    from scantling.packet import write_packet

    signal.setitimer(signal.ITIMER_PROF, PACKET_SECONDS)
    write_packet(plan, folder / "out")


def _place_fault(error: ReadError, folder: Path) -> str:
    """Why the place an error gives is none; empty where it is a place in a file of the maker's."""
    place = error.place
    if place is None:
        return "no place"
    path = folder / place.file
    if not path.is_file():
        return "" if place.file.startswith("kits/") else "place in no file"
    lines = path.read_text(encoding="utf-8", errors="surrogatepass").split("\n")
    if not 1 <= place.line <= len(lines) or not 1 <= place.character <= len(lines[place.line - 1]) + 1:
        return "place outside its file"
    return ""


def plan_faults(plan: Plan) -> list[str]:
    """What no plan may hold, whatever the maker wrote: unsound cuts, and numbers that are none."""
    found = [f"unsound: {f.message}" for f in plan.findings if f.code == "cut plan is unsound"]
    for finding in plan.findings:
        numbers = (finding.number, finding.limit)
        if any(isinstance(n, float) and not math.isfinite(n) for n in numbers):
            found.append(f"no number in {finding.check}/{finding.code}: {numbers}")
        if any(word in ("nan", "inf", "None") for word in finding.message.replace(",", " ").split()):
            found.append(f"no number told by {finding.check}/{finding.code}: {finding.message}")
    for name, value in (("mass", plan.mass), ("cuts", plan.cut_plan), ("build", plan.build_plan)):
        found += [f"no number in {name}: {way}" for way in _odd_numbers(value, name)]
    return found


def _odd_numbers(value: object, way: str) -> Iterator[str]:
    """The ways to every number in a value that is none or without end."""
    if isinstance(value, float):
        if not math.isfinite(value):
            yield f"{way} = {value}"
    elif is_dataclass(value):
        for part in fields(value):
            yield from _odd_numbers(getattr(value, part.name), f"{way}.{part.name}")
    elif isinstance(value, Mapping):
        for key, part in value.items():
            yield from _odd_numbers(part, f"{way}[{key}]")
    elif isinstance(value, (tuple, list)):
        for part in value:
            yield from _odd_numbers(part, f"{way}[]")


def _where(error: BaseException) -> str:
    """The innermost place of the program's own in a traceback."""
    frames = traceback.extract_tb(error.__traceback__)
    own = [f for f in frames if "/scantling/" in f.filename]
    last = own[-1] if own else frames[-1]
    return f"{last.filename.rsplit('/scantling/')[-1]}:{last.lineno} {last.name}"


def _story(error: BaseException) -> str:
    return "".join(traceback.format_exception(error)[-12:])


class _limit:  # noqa: N801
    """Raises TooLongError after so many seconds of processor time."""

    def __init__(self, seconds: float) -> None:
        self.seconds = seconds

    def __enter__(self) -> None:
        signal.signal(signal.SIGPROF, _too_long)
        signal.setitimer(signal.ITIMER_PROF, self.seconds)

    def __exit__(self, *_: object) -> None:
        signal.setitimer(signal.ITIMER_PROF, 0)


def _too_long(_: int, __: FrameType | None) -> None:
    raise TooLongError


def _work(seed: int, numbers: mp.Queue[int | None], answers: mp.Queue[Answer | int]) -> None:
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    while (number := numbers.get()) is not None:
        answers.put(number)
        with tempfile.TemporaryDirectory() as folder:
            answers.put(answer_of(number, seed, Path(folder)))


class Workers:
    """Processes that answer cases; one that stays silent too long is ended and its case called a hang."""

    def __init__(self, count: int, seed: int) -> None:
        self.seed = seed
        self.context = mp.get_context("spawn")
        self.numbers = [self.context.Queue() for _ in range(count)]
        self.answers = [self.context.Queue() for _ in range(count)]
        self.processes = [self._started(at) for at in range(count)]

    def _started(self, at: int) -> mp.process.BaseProcess:
        process = self.context.Process(
            target=_work, args=(self.seed, self.numbers[at], self.answers[at]), daemon=True
        )
        process.start()
        return process

    def run(self, wanted: range) -> Iterator[Answer]:
        """The answer of every case, as they come."""
        waiting, busy = list(reversed(wanted)), dict.fromkeys(range(len(self.processes)), (-1, 0.0))
        for at in busy:
            self._give(at, waiting, busy)
        while any(number >= 0 for number, _ in busy.values()):
            time.sleep(0.002)
            for at, (number, since) in list(busy.items()):
                if number >= 0 and (answer := self._heard(at, number, since)):
                    self._give(at, waiting, busy)
                    yield answer
        for process in self.processes:
            process.kill()

    def _give(self, at: int, waiting: list[int], busy: dict[int, tuple[int, float]]) -> None:
        busy[at] = (waiting.pop(), time.monotonic()) if waiting else (-1, 0.0)
        self.numbers[at].put(busy[at][0] if busy[at][0] >= 0 else None)

    def _heard(self, at: int, number: int, since: float) -> Answer | None:
        while not self.answers[at].empty():
            heard = self.answers[at].get()
            if isinstance(heard, Answer):
                return heard
        process = self.processes[at]
        late = time.monotonic() - since > DEAD_AFTER
        if process.is_alive() and not late:
            return None
        process.kill()
        self.numbers[at], self.answers[at] = self.context.Queue(), self.context.Queue()
        self.processes[at] = self._started(at)
        return Answer(number, "!dead", time.monotonic() - since, f"{'silent' if late else 'crashed'}")


def main() -> int:
    """Run, report, and return 1 if any answer was wrong."""
    count, seed, first = (int(word) for word in (*sys.argv[1:], *("10000", "0", "0")[len(sys.argv) - 1 :]))
    start, kinds, groups = time.monotonic(), Counter[str](), defaultdict[str, list[Answer]](list)
    slowest = 0.0
    for done, answer in enumerate(Workers(2, seed).run(range(first, first + count)), 1):
        kinds[answer.kind] += 1
        slowest = max(slowest, answer.seconds)
        if answer.wrong:
            groups[answer.wrong].append(answer)
            if len(groups[answer.wrong]) == 1:
                print(f"--- number {answer.number}: {answer.wrong}\n{answer.detail}", flush=True)
        if done % 100 == 0:
            print(f"{done} in {time.monotonic() - start:.0f} s: {dict(kinds)}", flush=True)
    print(f"{count} spoiled folders planned (seed {seed}, from {first}): {dict(kinds.most_common())}")
    print(f"slowest {slowest:.2f} s of processor; wrong answers {sum(map(len, groups.values()))}")
    for wrong, answers in sorted(groups.items(), key=lambda item: -len(item[1])):
        print(f"{len(answers):5} {wrong}; numbers {[a.number for a in answers[:6]]}")
    return 1 if groups else 0


if __name__ == "__main__":
    sys.exit(main())
