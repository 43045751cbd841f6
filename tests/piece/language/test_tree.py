"""From text to a tree: exact places, and everything that is refused."""

from __future__ import annotations

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.errors import ReadError
from scantling.piece.language import (
    MappingNode,
    Scalar,
    as_mapping,
    as_scalar,
    as_sequence,
    items_of,
    read_tree,
    tree,
)
from scantling.piece.language.edits import flattened
from scantling.quantity import LengthUnit


def read(text):
    return read_tree(text, "a.yaml")


def at(text, scalar):
    """The characters of the file that the scalar's place covers."""
    line = text.splitlines()[scalar.place.line - 1]
    return line[scalar.place.character - 1 :][: scalar.place.length]


def test_every_scalar_is_text(scalar):
    root = read("a: no\nb: 1:8\nc: 08\nd: 1e3\ne: ~\nf: 2024-01-01\ng: .inf\n")
    assert [entry.value.text for entry in root] == ["no", "1:8", "08", "1e3", "~", "2024-01-01", ".inf"]


def test_places_in_lines_braces_and_brackets():
    text = 'é: 1 1/2   # note\nparts:\n  leg: {wide: "3 in", deep: [a, b c]}\n'
    for found in flattened(read(text)):
        assert at(text, found.scalar) == found.scalar.text
    deep = read(text).get("parts").get("leg").get("deep").items[1]
    # source: by hand; counted from 1 in line 3
    assert (deep.place.line, deep.place.character, deep.place.length) == (3, 33, 3)


def test_places_inside_quotes_escapes_and_several_lines():
    text = "a: 'it''s'\nb: \"x\\u00bd y\"\nc: one two\n   three\nd: |\n  four\n  five\n"
    root = read(text)
    assert [entry.value.text for entry in root] == ["it's", "x½ y", "one two three", "four\nfive\n"]
    # source: by hand; offset in the words -> line and character in the file
    for name, offset, line, character in [
        ("a", 0, 1, 5),
        ("a", 3, 1, 9),
        ("b", 1, 2, 6),
        ("b", 3, 2, 13),
        ("c", 4, 3, 8),
        ("c", 8, 4, 4),
        ("d", 1, 6, 4),
        ("d", 6, 7, 4),
    ]:
        place = root.get(name).place_at(offset)
        assert (place.line, place.character) == (line, character), (name, offset)


def test_a_comment_may_begin_with_a_number():
    assert read("a: 1  # 8 screws\nb: 2 #eight\n").get("b").text == "2"


def test_windows_line_ends_count_once():
    text = "a: 1\r\nb: {c: 2}\r\n"
    assert str(read(text).get("b").get("c").place) == "a.yaml:2:8"


def test_the_file_s_unit_goes_to_every_scalar():
    mm = read("sizes: {a: 1}\nunits: mm\n")
    assert mm.get("sizes").get("a").unit is LengthUnit.MM
    assert read_tree("a: 1", "a.yaml", LengthUnit.MM).get("a").unit is LengthUnit.MM


def test_entries_go_by_name():
    root = read("Leg  Size: 1\nb: 2")
    assert isinstance(root, MappingNode)
    assert "leg size" in root
    assert isinstance(root.get("leg size"), Scalar)
    assert len(root) == 2


REFUSED = [
    ("‸", "the file is empty"),
    ("‸# only a note", "the file is empty"),
    ("‸- a\n- b", "`key: phrase` lines"),
    ("‸words", "`key: phrase` lines"),
    ("a: 1\n‸---\nb: 2", "a second document"),
    ("a: ‸&x 1", "hidden mark"),
    ("a: ‸*x", "hidden repeat"),
    ("a: ‸!%", "a hidden type"),
    ("a: ‸* 2", "a hidden repeat"),
    ("a: ‸& b", "a hidden mark"),
    ("a: ‸}", "closes what was not opened"),
    ("a: ‸!!int 3", "hidden type"),
    ("‸<<: {a: b}", "copy entries unseen"),
    ("a: 1\nb: 2\n‸A : 3", "written twice (first in line 1"),
    ("a: {b: 1, ‸b: 2}", "written twice"),
    ("a:‸\t1", "a tab stands here"),
    ("a: 1 # b‸\tc", "a tab stands here"),
    ("a: b‸\u2028c", "cannot be seen"),
    ("a: b‸\u200bc", "cannot be seen"),
    ("‸\ufeffa: b", "cannot be seen"),
    ("a: b‸\x07c", "cannot be shown"),
    ("? ‸[a]\n: b", "a key must be plain words"),
    ("‸: b", "a key is wanted"),
    ("a: ‸- 1/2", "close up the minus"),
    ("a: {b: ‸- 1/2}", "close up the minus"),
    ("a: b‸: c", "a second colon"),
    ("a: 1\n b‸: 2", "check that the line is indented"),
    ("a: ‸{b: 1", "a brace is not closed"),
    ("a: ‸{b: 1\nc: 2\n", "a brace is not closed"),
    ("a: {b: c d‸: e}", "a comma is missing"),
    ("a: ‸[1, 2", "a bracket is not closed"),
    ("a: ‸@x", "cannot begin a phrase"),
    ("a: ‸%x", "cannot begin a phrase"),
    ("a: ‸`x`", "cannot begin a phrase"),
    ('a: ‸"x', "a quote is opened and not closed"),
    ("a: ‸'x", "a quote is opened and not closed"),
    ('a: "x‸\\q"', "take it out"),
    ("a: 1\n‸b", "this line has no colon"),
    ("a: {b: c}‸}", "closes what was not opened"),
    ("a: ‸]", "closes what was not opened"),
    ('a: "x" ‸4', "not expected here"),
    ("- a\n‸b: c", "not expected here"),
    ("a:\n  size:‸ #8 x 1 1/4\n", "write 8 x 1 1/4"),
    ("a: screw ‸#8 x 1 1/4\n", "write 8 x 1 1/4 without `#`"),
    ("a: {b: 1 ‸#8\n}", "#8 is lost"),
    ("a: {‸b}", "`b` says nothing"),
    ("a: {b: 1, ‸c: , d: 2}", "`c` says nothing"),
    ("‸a:\n", "`a` says nothing"),
    ("a:\n  -‸\n  - b\n", "an item of this list says nothing"),
    ("a: {wide: 3,‸5}", "unknown key `5`: a decimal comma? (write 3.5)"),
    ("a: {wide: 1 1/2,‸5 mm}", "a decimal comma"),
    ("a: {wide: min(2, ‸3)}", "write `A at most B`"),
    ("units: ‸furlongs", "write inches or mm"),
    ("a: " + "[" * 15 + "‸[", "nested more than 16 deep"),
    ("a: ‸" + "b" * 5001, "more than 5,000 characters long"),
]


def test_nodes_as_what_a_reader_wants():
    root = read("a: words\nb: [1, 2]\nc: {d: 3}\n")
    words, items, entries = (root.get(name) for name in "abc")
    assert as_scalar(words, "it") is words
    assert as_sequence(items, "it") is items
    assert as_mapping(entries, "it") is entries
    assert items_of(items) == items.items
    assert items_of(words) == (words,)
    for wanted, node, says in [
        (as_scalar, items, "it wants a few words, not a list"),
        (as_scalar, entries, "it wants a few words, not entries"),
        (as_sequence, words, 'it wants a list, not "words"'),
        (as_mapping, items, "it wants `key: phrase` entries, not a list"),
    ]:
        with pytest.raises(ReadError, match=says) as caught:
            wanted(node, "it")
        assert caught.value.place == node.place


@pytest.mark.parametrize(("marked", "says"), REFUSED)
def test_what_is_refused(refused, marked, says):
    assert says in str(refused(read, marked))


@pytest.mark.parametrize(("marked", "says"), REFUSED)
def test_without_the_fast_reader_the_same_is_refused(refused, monkeypatch, marked, says):
    monkeypatch.setattr(tree, "_LOADER", yaml.SafeLoader)
    assert says in str(refused(read, marked))


def test_without_the_fast_reader_the_trees_are_the_same(monkeypatch, examples):
    texts = [path.read_text(encoding="utf-8") for path in sorted(examples.glob("*.yaml"))]
    fast = [read(text) for text in texts]
    monkeypatch.setattr(tree, "_LOADER", yaml.SafeLoader)
    for text, whole in zip(texts, fast, strict=True):
        assert flattened(read(text)) == flattened(whole)


def test_bounds_of_a_whole_file(refused):
    assert "at most 1,000,000" in str(refused(read, "‸a: " + " " * 1_000_000))
    assert "more than 20,000 entries" in str(refused(read, "a: [" + "b," * 19_996 + "‸b," + "b," * 200 + "]"))


@given(st.text(max_size=60, alphabet=st.sampled_from("ab12 :{}[],-#\"'\n\t&*!|>%@?\\x½\r")))
@settings(max_examples=400, deadline=None)
def test_any_text_is_a_tree_or_a_read_error_with_its_place(text):
    place = None
    try:
        found = flattened(read(text))
    except ReadError as error:
        place = error.place
    else:
        assert all(f.scalar.place.line >= 1 for f in found)
        return
    assert place is not None
    assert place.line >= 1
    assert place.character >= 1
