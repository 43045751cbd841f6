"""Keys: unknown ones, wrong shapes, and the page and the schema that come from the same tables."""

from __future__ import annotations

import subprocess
import sys

import jsonschema
import pytest
import yaml

from scantling.piece.language import house_kit_names, read_piece_text
from scantling.piece.language.keys import PIECE_TABLES, TABLES
from scantling.piece.language.kinds_of_value import Either, Entries, ListOf, Named, OneOrMore, Phrase
from scantling.piece.language.reference import reference_page
from scantling.piece.language.schema import editor_schema

HEAD = "piece: A\nunits: inches\n"


def read(text):
    return read_piece_text(text, "a.yaml")


@pytest.mark.parametrize(
    ("marked", "says"),
    [
        ("‸part: {}", '"part" is no key of the top level (nearest: "parts")'),
        ("parts: {leg: {‸whide: 3}}", 'nearest: "wide"'),
        ("parts: {leg: {‸x: 3}}", "is no key of a part (known: built, copies"),
        ("parts: {leg: {wide: ‸[a, b]}}", "`wide` wants a few words, not a list"),
        ("parts: {leg: {wide: ‸{a: b}}}", "`wide` wants a few words, not entries"),
        ("parts:\n  leg:\n    wide:\n      ‸- 1/2 to right\n", "close up the minus"),
        ("parts: ‸leg", '`parts` wants `key: phrase` entries, not "leg"'),
        ("parts: ‸[leg]", "`parts` wants `key: phrase` entries, not a list"),
        ("parts: {leg: ‸3}", 'part "leg" wants `key: phrase` entries'),
        ("parts: {leg: {wide: 3 ‸up}}", "`from` after it"),
        ("parts: {leg: {grain: ‸tall}}", '`grain` cannot be "tall" (known: wide, deep, high)'),
        ("parts: {leg: {rings: ‸quater}}", 'nearest: "quarter"'),
        ("parts: {leg: {built: ‸two pieces}}", "`built` cannot be"),
        ("parts: {leg: {built: {layers: ‸two}}}", "a whole number"),
        ("parts: {leg: {copies: {row: ‸forwards}}}", 'nearest: "forward"'),
        ("parts: {leg: {taper: ‸{faces: inside}}}", "a taper needs `to`"),
        ("parts: {leg: {outline: {path: [[0, 0], {‸too: [1, 1]}]}}}", 'nearest: "to"'),
        ("parts: {leg: {work: [{‸chamfr: bottom}]}}", 'nearest: "chamfer"'),
        ("parts: {piece ‸of leg: {wide: 3}}", "not expected"),
        ("parts: {leg ‸x: {wide: 3}}", "not expected"),
        ("parts: {leg‸_a: {wide: 3}}", "plain words with spaces"),
        ("parts: {‸2 leg: {wide: 3}}", "a name is wanted"),
        ("sizes: {‸thick: 3}", "the language uses that word"),
        ("sizes: {‸least: 3}", "the language uses that word"),
        ("sizes: {a: ‸= 3}", "compare with"),
        ("sizes: {a: 3 ‸mn}", "not expected"),
        ("joints: ‸{join: a, to: b}", "`joints` wants a list, not entries (write `- {key: phrase}` lines)"),
        ("joints: [‸{join: a}]", "a joint needs `to`"),
        ("joints: [{join: a, to: b, ‸whit: glue}]", 'nearest: "with"'),
        ("joints: [{join: a, to: b, through: ‸maybe}]", "known: yes, no"),
        ("hardware: {pull: {kind: ‸3}}", "a kind of hardware"),
        ("movements: {lid: {moves: lid, swings: ‸up 100 deg}}", "a face is wanted"),
        ("room: {passes: 29 ‸by 78}", "not expected"),
        ("finish: {oil: ‸many coats}", "whole number"),
        ("poses: {open: [lid, ‸3]}", "a name is wanted"),
        ("choices: {corners: a or ‸a}", "offered twice"),
        ("materials: {wood: ‸3/4}", "a timber or a sheet"),
        ("parts: {tray: {kit: tray, walls: ‸[1]}}", "a kit's setting is one phrase"),
        ("parts: {tray: {kit: ‸tary}}", 'no kit is called "tary" (nearest: "tray"; known: '),
        ("kits: {mine: ‸mine.yaml}", "lies in no folder"),
        ("follows: ‸other.yaml", "lies in no folder"),
        ("‸leave out: [a]", "`leave out` without `follows`"),
    ],
)
def test_keys_and_values_that_are_not_known(refused, marked, says):
    assert says in str(refused(read, HEAD + marked))


@pytest.mark.parametrize(
    ("marked", "says"),
    [
        ("‸units: mm", "does not say what it is"),
        ("‸piece: A", "write `units: inches` or `units: mm`"),
    ],
)
def test_a_file_says_what_it_is_and_its_unit(refused, marked, says):
    assert says in str(refused(read, marked))


def test_a_kit_takes_settings_of_its_own():
    document = read(HEAD + "parts: {box: {kit: tray, walls: 1/2, runs on: side slides}}")
    assert sorted(document.kits) == ["tray"]


def test_capitals_and_spaces_in_keys_do_not_matter():
    assert "leave out" in TABLES["top level"].by_name
    assert read("Piece: A\nUNITS: mm\nparts: {Left  Leg: {wide: 3}}").get("parts").get("left leg")


def every_value(value):
    yield value
    match value:
        case ListOf(item) | OneOrMore(item):
            yield from every_value(item)
        case Named(value=inner):
            yield from every_value(inner)
        case Either():
            for shape in (value.words, value.list, value.entries):
                if shape is not None:
                    yield from every_value(shape)


def test_tables_lead_to_tables_and_examples_can_be_read(scalar):
    for table in TABLES.values():
        for key in table.keys:
            assert key.help
            for value in every_value(key.value):
                if isinstance(value, Entries):
                    assert value.table in TABLES
                if isinstance(value, Phrase) and value.parse:
                    value.parse(scalar(value.example))


def test_the_reference_page_is_the_one_in_docs(examples):
    page = (examples.parents[2] / "docs" / "piece-reference.md").read_text(encoding="utf-8")
    assert page == reference_page(), (
        "run: python -m scantling.piece.language.reference > docs/piece-reference.md"
    )
    for table in PIECE_TABLES:
        for key in table.keys:
            assert f"| `{key.name}` |" in page


def test_the_schema_for_editors_takes_the_examples_and_the_kits(examples):
    schema = editor_schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    kits = sorted((examples.parent / "piece" / "kits").glob("*.yaml"))
    files = [*sorted(examples.glob("*.yaml")), *kits]
    pieces = [file for file in files if ".build" not in file.name]
    assert len(pieces) >= 16
    for file in pieces:
        tree = yaml.load(file.read_text(encoding="utf-8"), yaml.BaseLoader)
        assert [str(error) for error in validator.iter_errors(tree)] == [], file.name


def test_the_schema_for_editors_takes_a_kit_s_settings_beside_a_part_s_keys():
    part = {"kit": "drawer", "in": "opening", "copies": {"ring": 4}, "runs on": "wooden runners", "gap": 0.5}
    validator = jsonschema.Draft202012Validator(editor_schema())
    assert list(validator.iter_errors({"piece": "a", "parts": {"drawer": part}})) == []
    part["when"] = ["a list"]
    assert list(validator.iter_errors({"piece": "a", "parts": {"drawer": part}}))


@pytest.mark.parametrize(
    "tree",
    [
        {"piece": "a", "part": {}},
        {"piece": "a", "parts": {"leg": {"whide": 1}}},
        {"piece": "a", "units": "furlongs"},
        {"piece": "a", "joints": [{"join": "a"}]},
        {"piece": "a", "parts": {"leg": {"wide": [1]}}},
    ],
)
def test_the_schema_for_editors_refuses_slips(tree):
    assert list(jsonschema.Draft202012Validator(editor_schema()).iter_errors(tree))


@pytest.mark.parametrize("module", ["reference", "schema"])
def test_page_and_schema_are_printed(module):
    words = [sys.executable, "-m", f"scantling.piece.language.{module}"]
    done = subprocess.run(words, capture_output=True, text=True, check=True)
    assert "shelf pins" in done.stdout


def test_kits_of_the_house_can_be_read():
    assert {"drawer", "tray", "panel door", "dust frame"} <= set(house_kit_names())
