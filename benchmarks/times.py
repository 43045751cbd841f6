"""How long the demo takes: `make bench`. Prints wall seconds, median of several, against the targets.

Run it on a quiet machine; under load compare the CPU column.
"""

from __future__ import annotations

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


def edits() -> Callable[[], object]:
    """Each call plans the demo with another overall width, as a maker's edit would."""
    text = DESK.read_text(encoding="utf-8")
    shop = read_shop(SHOP)
    widths = iter(range(1, 1000))

    def edit() -> object:
        wide = f"{37 + next(widths) / 64:.6f}"
        changed = text.replace("wide: 38 within", f"wide: {wide} within")
        assert changed != text
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
    warm, cpu = timed(edit, 9)
    row("whole plan after an edit of one size", warm, 0.5, cpu)
    row("scantling --help", statistics.median(fresh("scantling.cli", "--help") for _ in range(5)), 0.3)
    demo = ("scantling.cli", "plan", str(DESK), "--shop", str(SHOP), "--out", "out", "--allow-must-fix")
    row("the demo with its packet, fresh process", fresh(*demo), 15.0)


if __name__ == "__main__":
    main()
