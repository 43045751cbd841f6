"""The example pieces with one trap built in: each must be found, and the pieces as they are stay quiet."""

import shutil
from pathlib import Path

import pytest

from scantling.checks import Severity, check_piece
from scantling.geometry import scene_of
from scantling.joinery import machine_piece
from scantling.piece import read_piece, resolve
from scantling.shop import facts_of, read_shop

EXAMPLES = Path(__file__).parents[2] / "src" / "scantling" / "examples"
DESK = {"tray drop": "1 5/8"}


@pytest.fixture
def findings(tmp_path):
    """Findings on an example after phrases in its file were replaced."""

    def asked(name, *changes, settings=None):
        folder = tmp_path / "examples"
        shutil.copytree(EXAMPLES, folder, dirs_exist_ok=True)
        path = folder / f"{name}.yaml"
        text = path.read_text(encoding="utf-8")
        for old, new in changes:
            assert old in text, f"{name} no longer says {old!r}"
            text = text.replace(old, new)
        path.write_text(text, encoding="utf-8")
        shop = read_shop(folder / "shops" / f"{name}.yaml")
        piece = resolve(read_piece(path), facts_of(shop), settings=settings or {})
        machined = machine_piece(piece, shop)
        return check_piece(machined, scene_of(machined), shop)

    return asked


TRAPS = [
    ("sewing-desk", [(", after: lid", "")], "movement blocked"),
    ("sewing-desk", [("mass: 18 lb", "mass: 150 lb")], "too heavy for its slides"),
    ("sewing-desk", [("top 100 deg", "top 170 deg")], "swings into the room"),
    ("sewing-desk", [("passes: 29 x 78", "passes: 13 x 78")], "does not pass"),
    ("sewing-desk", [("wide: 44", "wide: 36")], "wider than its wall"),
    ("sewing-desk", [("skirting: 5/8 x 5", "skirting: 1 1/2 x 5")], "stands off the skirting"),
    ("sewing-desk", [("push: 30 lb, on: lip", "push: 200 lb, on: tray front")], "tips over"),
    ("sewing-desk", [("kind: continuous hinge", "kind: butt hinge 2, count: 2")], "too few hinges"),
    ("sewing-desk", [("clear: 1/2", "clear: 2")], "hold without clearance"),
    (
        "sewing-desk",
        [
            ("panels: walnut plywood 3/4 or walnut 3/4", "panels: walnut 3/4"),
            ("to: side panel, with: slotted screws, fixed at: front", "to: side panel, with: screws"),
        ],
        "held across its grain",
    ),
    (
        "hall-bench",
        [
            (
                "join: batten, to: board, with: slotted screws, fixed at: middle",
                "join: batten, to: board, with: screws",
            )
        ],
        "held across its grain",
    ),
    ("hall-bench", [("top 95 deg", "top 130 deg")], "swings into the room"),
    ("bookcase", [("  strap: {kind: wall strap, joins: [top, wall]}\n", "")], "must never stand free"),
    ("bookcase", [("ply: birch plywood 18", "ply: mdf 18")], "sags past the trade's limit"),
    ("bookcase", [("ceiling: 2400", "ceiling: 1810")], "cannot be stood up"),
    (
        "chest-of-drawers",
        [("  strap: {kind: wall strap, joins: [back rail, wall]}\n", "")],
        "clothing storage rule",
    ),
    (
        "wall-shelf",
        [("overall: {wide: 48 within 40 to 64", "overall: {wide: 80 within 40 to 90")],
        "sag the eye sees",
    ),
    ("four-legged-stool", [("sit: 300 lb", "sit: 30 lb")], "tips over"),
]


@pytest.mark.parametrize(("name", "changes", "code"), TRAPS, ids=[f"{n}: {c}" for n, _, c in TRAPS])
def test_a_trap_is_found(findings, name, changes, code):
    settings = DESK if name == "sewing-desk" else {}
    assert code in [finding.code for finding in findings(name, *changes, settings=settings)]


SOUND = ["bed-with-slats", "bookcase", "chest-of-drawers", "four-legged-stool", "hall-bench", "sewing-desk"]
SOUND += ["sliding-lid-box", "wall-cabinet", "wall-shelf"]


@pytest.mark.parametrize("name", SOUND)
def test_a_sound_piece_is_not_drowned(findings, name):
    found = findings(name, settings=DESK if name == "sewing-desk" else {})
    assert [finding.code for finding in found if finding.must_fix] == []
    assert sum(finding.severity is Severity.SHOULD for finding in found) <= 5


def test_findings_come_must_first_and_alike_each_time(findings):
    first, second = (findings("sewing-desk", ("clear: 1/2", "clear: 2"), settings=DESK) for _ in range(2))
    assert first == second
    assert [f.severity for f in first] == sorted((f.severity for f in first), key=list(Severity).index)


def test_every_finding_says_where_it_comes_from(findings):
    for name in SOUND:
        for finding in findings(name):
            assert finding.source
            assert finding.message == finding.message.strip()
            assert finding.mend is None or finding.mend.text
