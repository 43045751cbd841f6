"""A process killed at any moment has lost nothing that it said was kept."""

from __future__ import annotations

import random
import subprocess
import sys

from scantling.ledger import open_ledger

WRITES = """
import sys
from itertools import count
from pathlib import Path
from scantling.ledger import Turn, open_ledger

ledger = open_ledger(Path(sys.argv[1]))
print("open", flush=True)
for number in count(int(sys.argv[2])):
    ledger.drafts.put("bench", f"field {number}", "typed", number)
    ledger.builds.tick("bench", f"step {number}")
    ledger.builds.note("bench", "noted", f"step {number}")
    ledger.photos.put("shop", f"board {number}", b"jpeg" * 500, 4, 3)
    change = ledger.changes.begin("bench", f"change {number}", {"bench.yaml": Turn(None, str(number))})
    ledger.changes.finish(change.number)
    print(number, flush=True)
"""


def kept_before_the_kill(path, start: int, lines: int) -> int:
    """The last number a killed writer said it had kept."""
    words = [sys.executable, "-c", WRITES, str(path), str(start)]
    with subprocess.Popen(words, stdout=subprocess.PIPE, text=True) as writer:
        assert writer.stdout.readline() == "open\n"
        said = [int(writer.stdout.readline()) for _ in range(lines)]
        writer.kill()
        said += [int(line) for line in writer.stdout.read().split("\n") if line]
    return said[-1]


def test_nothing_acknowledged_is_lost(path):
    chance, start = random.Random(7), 0
    for _ in range(4):
        last = kept_before_the_kill(path, start, chance.randint(1, 12))
        ledger = open_ledger(path)
        numbers = range(last + 1)
        assert ledger.notice == ""
        assert {f"field {n}" for n in numbers} <= ledger.drafts.all("bench").keys()
        assert {f"step {n}" for n in numbers} <= ledger.builds.ticks("bench").keys()
        assert {f"step {n}" for n in numbers} <= ledger.builds.notes("bench").keys()
        assert {f"board {n}" for n in numbers} <= ledger.photos.all("shop").keys()
        assert {f"change {n}" for n in numbers} <= {c.what for c in ledger.changes.listed("bench")}
        ledger.close()
        start = last + 1
