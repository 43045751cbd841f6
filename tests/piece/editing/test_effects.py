"""What a change does to the piece."""

from __future__ import annotations

import pickle

import pytest

from scantling.piece import resolve
from scantling.piece.editing import effects


def test_parts_joints_and_sizes_that_change(pieces):
    desk = pieces["sewing-desk"]
    before, after = resolve(desk), resolve(desk, settings={"leg size": "1 3/4"})
    found = effects(before, after)
    (size,) = found.sizes
    assert (size.name, size.before, size.after) == ("leg size", pytest.approx(41.275), pytest.approx(44.45))
    changed = {change.part: change for change in found.changed}
    leg = changed["left front leg"]
    assert [(one.name, one.before, one.after) for one in leg.sizes] == [
        ("wide", pytest.approx(41.275), pytest.approx(44.45)),
        ("deep", pytest.approx(41.275), pytest.approx(44.45)),
    ]
    assert (leg.moved, leg.other) == (False, False)
    assert changed["tray front"].moved or changed["tray front"].sizes
    assert "fixed top" not in changed
    assert (found.added, found.gone) == ((), ())
    assert pickle.loads(pickle.dumps(found)) == found


def test_parts_that_come_and_go(small):
    wood = (
        "parts:\n  a: {wide: left to right, deep: front to back, high: thick up from bottom, grain: wide}\n"
    )
    more = "  b: {wide: left to right, deep: front to back, high: thick down from top, grain: wide}\n"
    moved = wood.replace("up from bottom", "up from bottom + 2")
    one, two = resolve(small(wood)), resolve(small(wood + more))
    assert (effects(one, two).added, effects(two, one).gone) == (("b",), ("b",))
    (change,) = effects(one, resolve(small(moved))).changed
    assert (change.part, change.sizes, change.moved) == ("a", (), True)
    (worked,) = effects(one, resolve(small(wood.replace("grain: wide", "grain: deep")))).changed
    assert (worked.sizes, worked.moved, worked.other) == ((), False, True)
    assert effects(one, one).changed == ()


def test_joints_lost_and_gained(pieces):
    box = pieces["sliding-lid-box"]
    found = effects(resolve(box), resolve(box, settings={"corners": "rabbet"}))
    assert "closed end to front side: splined mitre" in found.joints_lost
    assert "closed end to front side: rabbet" in found.joints_gained
    assert len(found.joints_lost) == len(found.joints_gained) == 4
