"""An attack in rounds, each on a folder of its own, and what must be true of the folder after each."""

from __future__ import annotations

import random
import tempfile
from codecs import BOM_UTF8
from collections.abc import Iterator
from pathlib import Path

from tests.desk.hostile.attack import Attack, Report
from tests.desk.hostile.bench import Bench, bench, standing, step_all_back

ROUND = 300  # requests


def attacked(count: int, seed: int) -> Report:
    """So many requests, and all that was amiss."""
    chance, report = random.Random(seed), Report()
    while report.asked < count:
        with tempfile.TemporaryDirectory(prefix="pieces-") as place:
            folder = Path(place) / "pieces"
            folder.mkdir()
            with bench(folder) as desk:
                before = standing(folder)
                Attack(desk, chance, report).run(min(ROUND, count - report.asked))
                report.faults += after_all(desk, before)
    return report


def after_all(desk: Bench, before: dict[str, str]) -> Iterator[str]:
    """What is amiss once all is stepped back."""
    if standing(desk.folder) != before:
        yield "a file outside the folder was touched"
    step_all_back(desk)
    files = desk.files
    set_by = {path.read_bytes() for path in (desk.folder / ".scantling" / "removed").glob("*")}
    for file, content in desk.originals.items():
        same = files.get(file, b"").removeprefix(BOM_UTF8) == content.removeprefix(BOM_UTF8)
        if not same and not (_is_no_text(content) and content in set_by):
            yield f"{file} is not as it was"
    yield from (f"{file} is left over" for file in files if file not in desk.originals)


def _is_no_text(content: bytes) -> bool:
    """Such a file cannot go through the journal; put away, it is kept as it is."""
    return "\ufffd" in content.decode("utf-8", "replace")
