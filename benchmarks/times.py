"""How long the demo takes: `make bench`. Prints wall seconds, median of several, against the targets.

Run it on a quiet machine; under load compare the CPU column.
"""

from __future__ import annotations

import itertools
import statistics
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

from scantling.piece import read_piece, read_piece_text
from scantling.plan import make_plan
from scantling.shop import read_shop

ROOT = Path(__file__).parents[1]
EXAMPLES = ROOT / "src" / "scantling" / "examples"
DESK = EXAMPLES / "sewing-desk.yaml"
SHOP = EXAMPLES / "shops" / "sewing-desk.yaml"


def timed(job: Callable[[], object], runs: int) -> tuple[float, float]:
    """Median wall and CPU seconds."""
    walls, cpus = [], []
    for _ in range(runs):
        wall, cpu = time.perf_counter(), time.process_time()
        job()
        walls.append(time.perf_counter() - wall)
        cpus.append(time.process_time() - cpu)
    return statistics.median(walls), statistics.median(cpus)


def fresh(*words: str) -> float:
    start = time.perf_counter()
    subprocess.run([sys.executable, "-m", *words], cwd=ROOT, check=False, capture_output=True)
    return time.perf_counter() - start


EDITS: tuple[tuple[str, Callable[[int], str]], ...] = (
    ("wide: 38 within", lambda n: f"wide: {37 + n / 64:.6f} within"),
    ("deep: 17,", lambda n: f"deep: {17 + n / 64:.6f},"),
    ("fold depth: 6", lambda n: f"fold depth: {6 + n / 64:.6f}"),
    ("{fold depth", lambda n: f"{{leg size: {1.5 + n / 64:.6f}, fold depth"),
    ("lip drop: 3,", lambda n: f"lip drop: {3 + n / 64:.6f},"),
    ("deep: 7, high: 10 1/2", lambda n: f"deep: 7, high: {10.5 - n / 64:.6f}"),
    ("case: walnut 3/4", lambda n: f"case: {('cherry', 'hard maple', 'white oak')[n % 3]} 3/4"),
)


def edits() -> Callable[[], object]:
    """Each call plans the demo with another size (or wood) than the file says, as after a maker's edit."""
    text = DESK.read_text(encoding="utf-8")
    shop = read_shop(SHOP)
    numbers = itertools.count(len(EDITS))

    def edit() -> object:
        number = next(numbers)
        before, after = EDITS[number % len(EDITS)]
        assert before in text
        changed = text.replace(before, after(number // len(EDITS)))
        return make_plan(read_piece_text(changed, DESK.name, DESK.parent), shop)

    return edit


def row(name: str, measured: float, target: float, cpu: float | None = None) -> None:
    spent = "" if cpu is None else f"{cpu:7.2f} CPU"
    verdict = "ok" if measured <= target else "OVER"
    print(f"{name:44} {measured:7.2f} s {spent:12} target {target:.2f} {verdict}")


def main() -> None:
    """Print the table."""
    document, shop = read_piece(DESK), read_shop(SHOP)
    make_plan(document, shop)
    warm, cpu = timed(lambda: make_plan(document, shop), 5)
    row("whole plan of the demo, warm, same input", warm, 2.0, cpu)
    edit = edits()
    edit()
    warm, cpu = timed(edit, 2 * len(EDITS))
    row("whole plan after an edit of one size", warm, 0.33, cpu)
    row("scantling --help", statistics.median(fresh("scantling.cli", "--help") for _ in range(5)), 0.3)
    demo = ("scantling.cli", "plan", str(DESK), "--shop", str(SHOP), "--out", "out", "--allow-must-fix")
    row("the demo with its packet, fresh process", fresh(*demo), 15.0)


if __name__ == "__main__":
    main()
