"""A hundred and some spoiled folders of a maker's: each ends in a plan or in an error with its place.

The same as `benchmarks/mutate_plans.py`, which runs ten thousand; here within a quarter of a minute.
"""

from __future__ import annotations

import sys
import time
from collections import Counter
from pathlib import Path

import pytest

BENCHMARKS = Path(__file__).parents[2] / "benchmarks"
SEED = 20
SECONDS = 12.0  # of processor time; what has been planned by then counts
LEAST = 40  # folders that must have been planned, however slow the machine
HANG = 15.0  # s of processor time for one: thrice the benchmark's, for a machine that others load


@pytest.fixture
def answer_of(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.syspath_prepend(str(BENCHMARKS))
    before = set(sys.modules)
    import mutate_plans

    monkeypatch.setattr(mutate_plans, "SECONDS", HANG)
    yield mutate_plans.answer_of
    for name in {"mutate_plans", "spoiling", "mutate_files"} - before:
        sys.modules.pop(name, None)


def test_every_spoiled_folder_is_answered(answer_of, tmp_path: Path) -> None:
    start, kinds, wrong = time.process_time(), Counter[str](), []
    for number in range(1, 400):  # number 0 would be written as a packet
        if number % 20 == 0:
            continue
        folder = tmp_path / str(number)
        folder.mkdir()
        answer = answer_of(number, SEED, folder)
        kinds[answer.kind] += 1
        if answer.wrong:
            wrong.append(f"number {number} of seed {SEED}: {answer.wrong}\n{answer.detail}")
        if time.process_time() - start > SECONDS and kinds.total() >= LEAST:
            break
    assert wrong == []
    # The spoiling must reach every stage, or it would show nothing.
    assert min(kinds["plan"], kinds["ReadError"], kinds["ResolveError"]) >= 5, kinds


def test_the_same_seed_spoils_alike(answer_of) -> None:
    from spoiling import makers_folders, spoiled

    assert spoiled(7, 3) == spoiled(7, 3)
    assert spoiled(7, 3) != spoiled(8, 3)
    untouched = {case.piece: case.texts for case in makers_folders()}
    changed = sum(case.texts != untouched[case.piece] for case in (spoiled(n, SEED) for n in range(100)))
    assert changed > 90
