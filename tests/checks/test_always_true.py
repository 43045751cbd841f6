"""What must hold for any sizes: mirror images, thicker shelves, mends that just pass, silence in mdf."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.checks import check_piece
from scantling.checks.sag import sag, solve_least, solve_most
from scantling.checks.standing import GroundEdge, Push, Weight, balance
from scantling.piece.model import Air, Axis, Face, Load, Room
from scantling.wood import equilibrium_moisture_content, seasonal_change, species_named

QUICK = settings(max_examples=25, deadline=None)
WOODS = ("cherry", "white oak", "pine", "sugar maple", "walnut")


@QUICK
@given(st.floats(0, 40), st.floats(0.05, 0.94), st.floats(0.001, 0.05))
def test_damper_air_is_damper_wood(temperature, humidity, more):
    drier = equilibrium_moisture_content(temperature, humidity)
    assert equilibrium_moisture_content(temperature, humidity + more) > drier


@QUICK
@given(st.sampled_from(WOODS), st.floats(10, 1000), st.floats(6, 14), st.floats(6, 14))
def test_what_swells_shrinks_back(wood, width, first, last):
    coefficient = species_named(wood).tangential_coefficient
    there = seasonal_change(width, coefficient, first, last)
    assert there == pytest.approx(-seasonal_change(width, coefficient, last, first))
    assert (there > 0) == (last > first) or there == 0


@QUICK
@given(st.floats(5, 80), st.floats(10, 600), st.floats(50, 500), st.floats(200, 1200))
def test_feet_moved_as_the_mend_says_just_pass(mass, inside, force, height):
    edge = GroundEdge((0, 0), (0, -1))
    weights, push = [Weight(mass, (0, inside, 300))], Push(force, (0, inside, height), (0, -1, 0))
    out = balance(edge, weights, [push], 0.0).feet_outward(1.5)
    assert balance(GroundEdge((0, -out), (0, -1)), weights, [push], 0.0).ratio >= 1.5 - 1e-6


@QUICK
@given(st.floats(1, 99))
def test_solving_finds_the_border(border):
    assert solve_least(lambda x: x >= border, 0, 100) == pytest.approx(border, abs=1e-6)
    assert solve_most(lambda x: x <= border, 0, 100) == pytest.approx(border, abs=1e-6)


@pytest.mark.parametrize("wood", WOODS)
@pytest.mark.parametrize("long", [600, 1000])
def test_a_thicker_shelf_never_sags_more(make, wood, long):
    ratios = []
    for thick in (16, 19, 25, 32):
        left = make.part("left", (0, 0, 0), (19, 285, 500), grain=Axis.HIGH)
        right = make.part("right", (19 + long, 0, 0), (38 + long, 285, 500), grain=Axis.HIGH)
        shelf = make.part("shelf", (19, 0, 200), (19 + long, 285, 200 + thick), wood, Axis.WIDE)
        joints = (make.joint(shelf, left, "dado"), make.joint(shelf, right, "dado"))
        load = Load("fill", ("shelf",), make.place, amount=200.0)
        found = make.ask(sag, make.piece(left, right, shelf, joints=joints, loads=(load,)))
        ratios.append(min((f.number for f in found if f.unit == "span/sag"), default=float("inf")))
    assert ratios == sorted(ratios)


def _lopsided(make, mirrored):
    """A top on two legs and a panel, heavier on one side; built as written or as in a mirror."""

    def place(low, high):
        if not mirrored:
            return low, high
        return (1000 - high[0], low[1], low[2]), (1000 - low[0], high[1], high[2])

    def part(name, low, high, wood, grain):
        return make.part(name, *place(low, high), wood, grain)

    top = part("top", (0, 0, 700), (1000, 500, 720), "white oak", Axis.WIDE)
    leg = part("leg", (20, 20, 0), (65, 65, 700), "cherry", Axis.HIGH)
    panel = part("panel", (900, 0, 0), (920, 500, 700), "cherry", Axis.HIGH)
    rail = part("rail", (65, 30, 600), (900, 52, 700), "cherry", Axis.WIDE)
    joints = (
        make.joint(top, panel, "glue", 1),
        make.joint(top, rail, "screws", 2),
        make.joint(rail, leg, "tenon", 3),
        make.joint(rail, panel, "dowels", 4),
    )
    toward = Face.RIGHT if mirrored else Face.LEFT
    loads = (
        Load("push", ("top",), make.place, amount=300.0, toward=toward),
        Load("fill", ("top",), make.place, contents="books"),
    )
    room = Room(air=Air(0.25, 0.6, 21.0), passes=(600.0, 900.0))
    return make.examined(make.piece(top, leg, panel, rail, joints=joints, loads=loads, room=room))


def test_a_mirrored_piece_has_the_same_findings(make):
    asked = []
    for mirrored in (False, True):
        examined = _lopsided(make, mirrored)
        found = check_piece(examined.machined, examined.scene, examined.shop)
        asked.append([(f.code, f.where, f.number and round(f.number, 4)) for f in found])
    assert asked[0] == asked[1]
    assert len(asked[0]) >= 3
