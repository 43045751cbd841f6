"""docs/joints.md against the code: every method, and numbers it quotes."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from scantling.joinery import methods_with_rules
from scantling.joinery.rules import number
from scantling.piece.methods import METHODS

PAGE = (Path(__file__).parents[2] / "docs" / "joints.md").read_text(encoding="utf-8")
ROWS = {m[1]: m[2] for m in re.finditer(r"^\| `([a-z -]+)` \| (.*) \|$", PAGE, re.MULTILINE)}


def test_every_method_of_the_language_has_rules():
    assert methods_with_rules() == tuple(sorted(METHODS))


@pytest.mark.parametrize("method", sorted(METHODS))
def test_every_method_has_a_row_with_a_source(method):
    assert re.search(r"\[(practice\+?|memory|geometry|handbook)\]", ROWS[method])


QUOTED = [
    ("tenon", "{:g} mm long", "tenon length"),
    ("tenon", "{:g} mm is split", "tenon widest"),
    ("tenon", "{:g} mm of glue space", "tenon glue space"),
    ("tenon", "{:g} mm below the end", "tenon below leg top"),
    ("dado", "+ {:g} mm", "housing fit"),
    ("dado", "at most {:g} mm", "dado deepest"),
    ("dado", "stopped {:g} mm short", "housing stops short"),
    ("groove", "{:g} mm for a solid panel", "groove depth solid panel"),
    ("tongue", "{:g} mm long", "tongue length"),
    ("dovetails", "each {:g} thicknesses", "dovetail pitch over thickness"),
    ("dovetails", "1 in {:g}", "dovetail slope hardwood"),
    ("half-blind dovetails", "at least {:g} mm", "half-blind least lap"),
    ("dowels", "{:g} mm left behind", "dowel wood left"),
    ("dowels", "holes {:g} mm deeper", "dowel glue space"),
    ("dowels", "first {:g} mm in", "dowel case first"),
    ("dowels", "at most {:g} mm apart", "dowel case spacing"),
    ("dowels", "rails up to {:g} mm", "dowel rail widest"),
    ("loose tenon", "{:g} mm wide", "loose tenon width"),
    ("loose tenon", "each {:g} mm", "loose tenon spacing"),
    ("biscuits", "at most {:g} mm", "biscuit spacing"),
    ("screws", "{:g} times", "screw length over thickness"),
    ("screws", "about {:g} mm apart", "screw spacing"),
    ("pocket screws", "{:g} degrees", "pocket angle"),
    ("nails", "{:g} mm brads", "nail diameter"),
    ("figure eights", "arm {:g} mm", "figure eight arm"),
    ("figure eights", "at most {:g} mm apart", "top fastener spacing"),
    ("buttons", "{:g} mm either way", "button travel"),
    ("clips", "{:g} mm below the top", "clip offset"),
    ("glue blocks", "each {:g} mm", "glue block spacing"),
    ("brackets", "each {:g} mm", "bracket spacing"),
    ("bed bolts", "sunk {:g} mm", "bolt counterbore deep"),
    ("hanger bolts", "{:g} mm of wood thread", "hanger bolt wood thread"),
]


@pytest.mark.parametrize(("method", "words", "rule"), QUOTED)
def test_numbers_on_the_page_are_the_rules(method, words, rule):
    assert words.format(number(rule)) in ROWS[method]  # source: exact, rules.json


def test_every_rule_in_the_table_is_used_and_has_a_source():
    import json

    folder = Path(__file__).parents[2] / "src" / "scantling" / "joinery"
    table = json.loads((folder / "rules.json").read_text(encoding="utf-8"))
    code = "".join(path.read_text(encoding="utf-8") for path in sorted(folder.glob("*.py")))
    unused = [name for name in table["rules"] if f'"{name}"' not in code]
    assert unused == []
    assert all(rule["source"] for rule in table["rules"].values())
