"""Whether two states of the program give the same answers, whole plan for whole plan.

    PYTHONPATH=<a tree>/src python benchmarks/same_answers.py tell before.json
    PYTHONPATH=<another>/src python benchmarks/same_answers.py tell after.json [backward]
    python benchmarks/same_answers.py compare before.json after.json

All plans of one run are made in one process, so that what is kept from one plan to the next is put to the
test; `backward` makes them in the other order. Numbers are compared to ten digits.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, fields, is_dataclass
from enum import Enum
from pathlib import Path

from scantling.errors import ScantlingError
from scantling.geometry import found_contacts, overlaps
from scantling.piece import read_piece_text, read_record
from scantling.piece.model import NO_RECORD
from scantling.plan import Plan, make_plan
from scantling.shop import default_shop, read_shop

ROOT = Path(__file__).parents[1]
FOLDERS = ("src/scantling/examples", "tests/acceptance/pieces", "tests/trials/pieces")

EDITS: Mapping[str, tuple[tuple[str, str], ...]] = {
    "sewing-desk": (
        ("wide: 38 within", "wide: 37 1/4 within"),
        ("wide: 38 within", "wide: 41 3/8 within"),
        ("deep: 17,", "deep: 18 1/2,"),
        ("deep: 17,", "deep: 15,"),
        ("high: 37 within", "high: 36 1/16 within"),
        ("fold depth: 6", "fold depth: 5 1/2"),
        ("fold depth: 6", "fold depth: 7 1/8"),
        ("{fold depth", "{leg size: 1 3/4, fold depth"),
        ("{fold depth", "{leg size: 2 1/2, fold depth"),
        ("{fold depth", "{seam: 1/8, overhang: 1, fold depth"),
        ("lip drop: 3", "lip drop: 2 1/2"),
        ("lip drop: 3", "lip drop: 4"),
        ("deep: 7, high: 10 1/2", "deep: 7, high: 11"),
        ("deep: 7, high: 10 1/2", "deep: 7, high: 14"),
        ("{wide: 16, deep: 7", "{wide: 20, deep: 9"),
        ("case: walnut 3/4", "case: cherry 3/4"),
        ("case: walnut 3/4", "case: hard maple 1"),
        ("panels: walnut plywood 3/4 or", "panels: any of walnut plywood 3/4 or"),
        ("least within 1 to 3 by 1/8", "most within 1 to 3 by 1/4"),
        ("least within 1 to 3 by 1/8", "free within 1 to 3"),
        ("least within 1 to 3 by 1/8", "least within 1 to 1 1/2 by 1/8"),
        ("least within 1 to 3 by 1/8", "1 5/8"),
        ("lip drop: 3,", "lip drop: least within 2 to 3 by 1/4,"),
        ("size: 3/8 x 2, every: 3}", "size: 3/8 x 2, every: 4}"),
        ("panels: walnut plywood 3/4 or walnut 3/4", "panels: walnut 3/4 or walnut plywood 3/4"),
        ("100 deg", "180 deg"),
    ),
    "chest-of-drawers": (
        ("wide: 36", "wide: 34 1/2"),
        ("deep: 19", "deep: 21"),
        ("high: 44", "high: 48"),
        ("plinth height: 4", "plinth height: 3 1/4"),
        ("half-blind dovetails or rabbet", "any of half-blind dovetails or rabbet"),
        ("case: cherry 3/4", "case: walnut 7/8"),
    ),
    "bookcase": (
        ("wide: 800", "wide: 730"),
        ("high: 1800", "high: 1500"),
        ("birch plywood 18", "birch plywood 12"),
        ("count: 2, every: 280", "count: 1, every: 280"),
    ),
    "four-legged-stool": (
        ("9 deg within", "7 deg within"),
        ("seat across: 13", "seat across: 14 1/2"),
        ("leg size: 1 3/8", "leg size: 1 5/8"),
    ),
    "round-table": (
        ("wide: 48", "wide: 44"),
        ("foot reach: 21 1/2", "foot reach: 20"),
        ("{ring: 4}", "{ring: 5}"),
    ),
    "hall-bench": (
        ("wide: 42", "wide: 50"),
        ("rail height: 6", "rail height: least within 4 to 6 by 1/2"),
        ("95 deg", "130 deg"),
    ),
    "wall-cabinet": (("wide: 18", "wide: 15"), ("gap: 3/32", "gap: 1/32"), ("high: 26", "high: 30 1/4")),
    "wall-shelf": (("wide: 48", "wide: 60"), ("studs: 16", "studs: 24"), ("deep: 9", "deep: 11")),
    "bed-with-slats": (
        ("post: 2 3/4", "post: 3"),
        ("rail top: 16", "rail top: 18"),
        ("deep: 86", "deep: 82"),
    ),
    "sliding-lid-box": (
        ("wide: 12", "wide: 10 1/2"),
        ("splined mitre or finger", "any of splined mitre or finger"),
        ("lid drop: 1/4", "lid drop: most within 1/16 to 1 by 1/16"),
    ),
}


@dataclass(frozen=True)
class Case:
    """One piece to plan: its words as edited, and where it lies."""

    name: str
    text: str
    path: Path


def cases() -> Iterator[Case]:
    """Every piece file as it is, then the edited ones."""
    for folder in FOLDERS:
        for path in sorted((ROOT / folder).glob("*.yaml")):
            if not path.name.endswith(".build.yaml"):
                yield Case(f"{folder}/{path.stem}", path.read_text(encoding="utf-8"), path)
    for stem, edits in EDITS.items():
        path = ROOT / FOLDERS[0] / f"{stem}.yaml"
        text = path.read_text(encoding="utf-8")
        for before, after in edits:
            assert before in text, (stem, before)
            yield Case(f"{stem}: {after}", text.replace(before, after, 1), path)


def answer(case: Case) -> dict[str, str]:
    """The plan of a case, thing by thing, as text."""
    shop_path = case.path.parent / "shops" / case.path.name
    record_path = case.path.with_name(f"{case.path.stem}.build.yaml")
    if case.path.stem == "bed-with-slats":
        record_path = case.path.with_name("bed-first-one.build.yaml")
    try:
        shop = read_shop(shop_path) if shop_path.exists() else default_shop()
        document = read_piece_text(case.text, case.path.name, case.path.parent)
        record = read_record(record_path) if record_path.exists() else NO_RECORD
        return {name: told(plan_part(make_plan(document, shop, record))) for name, plan_part in PARTS.items()}
    except ScantlingError as error:
        return {"error": str(error)}


PARTS: Mapping[str, Callable[[Plan], object]] = {
    "piece": lambda plan: plan.piece,
    "machined": lambda plan: plan.machined,
    "settled": lambda plan: plan.settled,
    "findings": lambda plan: plan.findings,
    "mass": lambda plan: plan.mass,
    "cut plan": lambda plan: plan.cut_plan,
    "build plan": lambda plan: plan.build_plan,
    "solids": lambda plan: [(s.name, s.volume, s.centre, s.bounds) for s in plan.scene.solids.values()],
    "touches": lambda plan: (found_contacts(plan.scene), overlaps(plan.scene)),
}


def told(thing: object) -> str:
    """A thing written out with its numbers to ten digits, sets in order, and dataclasses by
    those of their fields that are not as usual."""
    if isinstance(thing, float):
        return f"{thing:.10g}" if abs(thing) > 1e-9 else "0"
    if isinstance(thing, Enum | str | int | bool | None):
        return repr(thing)
    if is_dataclass(thing):
        said = ((f.name, getattr(thing, f.name), f.default) for f in fields(thing))
        inner = ", ".join(f"{name}={told(value)}" for name, value, usual in said if value != usual)
        return f"{type(thing).__name__}({inner})"
    if isinstance(thing, Mapping):
        return "{" + ", ".join(f"{told(key)}: {told(value)}" for key, value in thing.items()) + "}"
    if isinstance(thing, frozenset | set):
        return "{" + ", ".join(sorted(map(told, thing))) + "}"
    if isinstance(thing, tuple | list):
        return "[" + ", ".join(map(told, thing)) + "]"
    if isinstance(thing, Path):
        return thing.name
    return type(thing).__name__


def tell(to: Path, backward: bool) -> None:
    """Write the answers of the program that is imported."""
    asked = list(cases())
    answers = {case.name: answer(case) for case in (asked[::-1] if backward else asked)}
    to.write_text(json.dumps(answers), encoding="utf-8")
    print(f"{len(answers)} plans, {sum('error' in told for told in answers.values())} refused")


def compare(before: Path, after: Path) -> int:
    """Print where two runs differ. Returns how many plans do."""
    old, new = (json.loads(path.read_text(encoding="utf-8")) for path in (before, after))
    unlike = [name for name in old if old[name] != new.get(name)]
    for name in unlike:
        for part in old[name].keys() | new.get(name, {}).keys():
            a, b = old[name].get(part, ""), new.get(name, {}).get(part, "")
            if a != b:
                at = next(
                    (i for i, (x, y) in enumerate(zip(a, b, strict=False)) if x != y), min(len(a), len(b))
                )
                print(
                    f"{name}, {part}:\n  {a[max(at - 80, 0) : at + 120]}\n  {b[max(at - 80, 0) : at + 120]}"
                )
    print(f"{len(old)} plans, {len(unlike)} differ")
    return len(unlike)


def main(words: list[str]) -> int:
    match words:
        case ["tell", to, *rest]:
            tell(Path(to), "backward" in rest)
            return 0
        case ["compare", before, after]:
            return min(compare(Path(before), Path(after)), 1)
    print(__doc__)
    return 2


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
