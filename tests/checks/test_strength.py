"""Leg joints against a push: the trade's worked example of a four-legged table."""

import pytest

from scantling.checks.strength import joint_moment, strength
from scantling.piece.model import Axis, Face, Load


def _table(make, apron=90.0, newtons=400.0):
    """Four legs 700 high, aprons along `wide`, two dowels 10 x 50 in each joint."""
    legs = [
        make.part(f"{s} {d} leg", (x, y, 0), (x + 45, y + 45, 700), grain=Axis.HIGH)
        for s, x in (("left", 0), ("right", 955))
        for d, y in (("front", 0), ("back", 555))
    ]
    rails = [
        make.part(f"{d} rail", (45, y + 12, 700 - apron), (955, y + 34, 700), grain=Axis.WIDE)
        for d, y in (("front", 0), ("back", 555))
    ]
    pairs = [(rails[0], legs[0]), (rails[0], legs[2]), (rails[1], legs[1]), (rails[1], legs[3])]
    joints = tuple(make.joint(rail, leg, "dowels") for rail, leg in pairs)
    push = Load("push", ("left front leg",), make.place, amount=newtons, toward=Face.LEFT)
    layouts = [make.layout(joint, count=2.0, diameter=10.0, length=50.0) for joint in joints]
    return make.examined(make.piece(*legs, *rails, joints=joints, loads=(push,)), layouts=layouts)


def test_two_dowels_by_hand(make):
    # source: by hand; pi x 10 x 25 x 3.0 = 2,356 N over 0.8 x 90 mm: 170 N m
    examined = _table(make)
    assert joint_moment(examined, examined.piece.joints[0]) == pytest.approx(169_600, rel=0.001)


def test_the_trades_table(make):
    # source: by hand; 400 N x 0.70 m / 4 = 70 N m on each, 170 / 70 = 2.4 times
    found = tuple(strength(_table(make)))
    assert [f.code for f in found] == ["joint weaker than its load"]
    assert found[0].number == pytest.approx(2.42, abs=0.01)
    assert "70.0 N m (51.6 lb ft) on each of 4" in found[0].message
    assert "112 mm" in found[0].mend.text


def test_the_deeper_apron_passes(make):
    assert tuple(strength(_table(make, apron=112.0))) == ()


def test_a_joint_nobody_has_numbers_for_is_left_alone(make):
    examined = _table(make)
    brackets = tuple(make.renamed(joint, method="brackets") for joint in examined.piece.joints)
    assert tuple(strength(make.examined(make.renamed(examined.piece, joints=brackets)))) == ()
