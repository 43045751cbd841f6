"""What a piece may know of a shop."""

from __future__ import annotations

import pytest

from scantling.piece.methods import METHODS
from scantling.shop import default_shop, facts_of
from scantling.shop.facts import methods_of
from scantling.shop.model import MachineKind
from scantling.wood import all_species, species_named


def test_the_sheet_on_hand_speaks_before_the_one_for_sale(shop_of):
    shop = shop_of(
        "sheets:\n  birch plywood 18:\n    A: 100 x 100 x 18.2, for sale\n"
        "    B: 100 x 100 x 17.6, on hand 1\n",
        "mm",
    )
    facts = facts_of(shop)
    assert [(s.name, s.label, s.thick) for s in facts.sheets] == [("birch plywood", 18.0, 17.6)]


def test_methods_need_their_tools(shop_of):
    bare = facts_of(shop_of("machines:\n  hand saw: yes\n"))
    assert "dowels" not in bare.methods
    assert "pocket screws" not in bare.methods
    with_drill = facts_of(shop_of("machines:\n  drill: yes\n  dowel jig: yes\n"))
    assert "dowels" in with_drill.methods
    assert "dowels" not in facts_of(shop_of("machines:\n  dowel jig: yes\n")).methods


def test_what_the_maker_likes_comes_first_if_it_can_be_made(shop_of):
    facts = facts_of(shop_of("machines:\n  router: yes\nlikes: [dovetails, dado, tenon]\n"))
    assert facts.methods[:2] == ("dado", "tenon")
    assert "dovetails" not in facts.methods


def test_all_tools_make_all_methods():
    from scantling.errors import Place
    from scantling.shop.model import Machine

    place = Place("x", 1, 1)
    every = tuple(Machine(kind.value, kind, place) for kind in MachineKind)
    assert set(methods_of(every)) == set(METHODS)


def test_nothing_of_the_usual_shop_is_owned():
    shop = default_shop()
    assert not any(item.owned for item in (*shop.boards, *shop.sheets, *shop.lumber))
    assert all(item.on_hand == 0 for item in shop.hardware)
    assert "invented" in shop.note
    facts = facts_of(shop)
    assert {"walnut", "cherry", "white oak", "yellow-poplar", "white ash"} <= set(facts.woods)
    # source: PS 20, minimum dressed dry size of a 2x8: 1 1/2 x 7 1/4 in
    two_by_eight = next(fact for fact in facts.lumber if fact.nominal == "2x8")
    assert (round(two_by_eight.thick, 2), round(two_by_eight.broad, 2)) == (38.1, 184.15)


def test_every_wood_of_the_handbook_is_sold_by_the_usual_shop():
    """A newcomer's pine bookshelf had seven findings, a part each: nobody sold pine without a shop file."""
    # source: exact; every wood of wood/ in four thicknesses, none twice
    shop = default_shop()
    sold = [(species_named(each.species).name, each.nominal) for each in shop.for_sale]
    wanted = {
        (species.name, nominal) for species in all_species() for nominal in ("4/4", "5/4", "6/4", "8/4")
    }
    assert set(sold) == wanted
    assert len(sold) == len(wanted)


@pytest.mark.parametrize("name", ["birch plywood", "baltic birch", "mdf", "oak plywood", "melamine", "osb"])
def test_the_usual_shop_sells_common_sheets(name):
    labels = {round(each.label, 2) for each in default_shop().sheets if each.name == name}
    # source: exact; 1/4, 1/2 and 3/4 in, and 18 mm
    assert {6.35, 12.7, 19.05, 18.0} <= labels


def test_the_usual_shop_prices_a_stick_by_the_wood_in_it():
    stick = next(each for each in default_shop().lumber if each.id == "spruce 2x4")
    # source: by hand; 1.5 x 3.5 x 96 in = 504 in3 = 3.5 board feet, at the invented 3 a foot
    assert stick.price == 10.5
    assert stick.count is None


def test_stock_has_one_name_each_in_the_usual_shop():
    shop = default_shop()
    names = [each.id for each in (*shop.boards, *shop.for_sale, *shop.lumber, *shop.sheets)]
    assert len(names) == len(set(names))
