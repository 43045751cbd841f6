"""Edits: one scalar or one entry changes, every other character stays."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.errors import Place, ReadError
from scantling.piece.language import read_tree
from scantling.piece.language.edits import (
    add_entry,
    add_item,
    changed_elsewhere,
    flattened,
    replace_scalar,
)
from scantling.piece.language.removals import remove_entry


def place(line, character):
    return Place("a.yaml", line, character)


@pytest.mark.parametrize(
    ("before", "where", "new", "after"),
    [
        # source: by hand
        ("a: {b: 1, c: 2}  # x\n", (1, 8), "3 1/2", "a: {b: 3 1/2, c: 2}  # x\n"),
        ("a:   1   # x\r\nb: 2\r\n", (1, 6), "10", "a:   10   # x\r\nb: 2\r\n"),
        ('a: "1"\n', (1, 5), "2 in", 'a: "2 in"\n'),
        ("a: '1'\n", (1, 5), "3' 2", "a: '3'' 2'\n"),
        ("a: {b: 1}\n", (1, 8), "x, y", "a: {b: 'x, y'}\n"),
        ("a: 1\n", (1, 4), "x, y", "a: x, y\n"),
        ("a: 1\n", (1, 4), "#8 x 1", "a: '#8 x 1'\n"),
        ("a: 1\n", (1, 4), "x: y", "a: 'x: y'\n"),
        ("a: 1\n", (1, 4), "- 1/2", "a: '- 1/2'\n"),
        ("a: 1\n", (1, 4), ' padded "', "a: ' padded \"'\n"),
        ("a: one\n  two\nb: 3\n", (1, 4), "four", "a: four\nb: 3\n"),
        ("a: |\n  one\n  two\nb: 3\n", (2, 3), "four", "a: four\nb: 3\n"),
        ("a: [1, 2]\n", (1, 8), "3", "a: [1, 3]\n"),
        ("leg: {wide: 1}\n", (1, 1), "post", "post: {wide: 1}\n"),
        ("é: {½: 1, c: 2}\n", (1, 14), "3", "é: {½: 1, c: 3}\n"),
    ],
)
def test_only_the_words_change(before, where, new, after):
    assert replace_scalar(before, place(*where), new) == after


@pytest.mark.parametrize(
    ("where", "new", "says"),
    [
        ((1, 5), "x", "no words begin here"),
        ((9, 1), "x", "no words begin here"),
        ((1, 4), " ", "nothing is no phrase"),
        ((1, 4), "x\ny", "one line"),
        ((1, 4), "x\ty", "one line"),
        ((2, 1), "a", "cannot stand here"),
    ],
)
def test_edits_that_cannot_be(where, new, says):
    with pytest.raises(ReadError, match=says):
        replace_scalar("a: 12\nb: 2\n", place(*where), new)


def test_what_moved_elsewhere_is_named():
    before = "a: 1\nparts: {leg: {wide: 2, deep: 3}}\n"
    wide = read_tree(before, "a.yaml").get("parts").get("leg").get("wide").place
    assert changed_elsewhere(before, before.replace("2", "5"), wide) == ()
    assert changed_elsewhere(before, before.replace("3", "5"), wide) == ("parts, leg, deep",)
    assert changed_elsewhere(before, before + "b: 1\n", wide) == ("b", "b")


# a piece small enough to read again and again, with every way of writing
SAMPLE = """\
piece: A   # the name
units: inches

overall: {wide: 38 within 34 to 42, deep: "17"}
parts:
  leg: {wide: 'it''s', copies: four corners,   # here
    work: [{chamfer: bottom}]}
  lid:
    note: >-
      two
      lines
    wide: left to
      right
joints:
  - {join: leg, to: lid}
"""
SCALARS = flattened(read_tree(SAMPLE, "a.yaml"))
WORDS = st.text(min_size=1, max_size=12, alphabet=st.sampled_from("ab12 :{}[],-#\"'&*!|>%@?\\x½="))


@given(st.sampled_from(SCALARS), WORDS.filter(str.strip))
@settings(max_examples=200, deadline=None)
def test_any_words_at_any_scalar_change_that_scalar_alone(found, new):
    start, end = found.scalar.raw
    try:
        after = replace_scalar(SAMPLE, found.scalar.place, new)
    except ReadError:
        assert found.steps[-1] < 0 or found.names == ("units",), "only a key or the unit may refuse words"
        return
    assert after.startswith(SAMPLE[:start])
    assert after.endswith(SAMPLE[end:])
    assert changed_elsewhere(SAMPLE, after, found.scalar.place) == ()
    assert {f.steps: f.scalar.text for f in flattened(read_tree(after, "a.yaml"))}[found.steps] == new


@pytest.mark.parametrize(
    ("before", "where", "key", "value", "after"),
    [
        # source: by hand
        ("a: {b: 1}\n", ("a",), "c", "2", "a: {b: 1, c: 2}\n"),
        ("a: {}\n", ("a",), "c", "2", "a: {c: 2}\n"),
        ("a: {b: {d: 1}}  # x\n", ("a",), "c", "x, y", "a: {b: {d: 1}, c: 'x, y'}  # x\n"),
        ("a:\n   b: 1   # x\n\n# y\nd: 2\n", ("a",), "c", "2", "a:\n   b: 1   # x\n   c: 2\n\n# y\nd: 2\n"),
        ("a:\r\n  b: 1\r\n", ("a",), "c", "{d: 2}", "a:\r\n  b: 1\r\n  c: {d: 2}\r\n"),
        ("a: 1", (), "b", "2", "a: 1\nb: 2"),
        ("a:\n  b:\n    - 1\n", ("a",), "c", "2", "a:\n  b:\n    - 1\n  c: 2\n"),
        (
            "a:\n  b: {c: 1,\n    d: 2}\ne: 3\n",
            ("a",),
            "f",
            "4",
            "a:\n  b: {c: 1,\n    d: 2}\n  f: 4\ne: 3\n",
        ),
        ("a:\n  b: |\n    one\n    two\n", ("a",), "c", "2", "a:\n  b: |\n    one\n    two\n  c: 2\n"),
    ],
)
def test_an_entry_is_added_as_its_neighbours_are_written(before, where, key, value, after):
    assert add_entry(before, "a.yaml", where, key, value) == after


@pytest.mark.parametrize(
    ("before", "where", "value", "after"),
    [
        ("a: [1]\n", ("a",), "2", "a: [1, 2]\n"),
        ("a: [1]\n", ("a",), "2, 3", "a: [1, '2, 3']\n"),
        ("a: []\n", ("a",), "{b: 2}", "a: [{b: 2}]\n"),
        ("a:\n  - {b: 1}  # x\nc: 2\n", ("a",), "{b: 2}", "a:\n  - {b: 1}  # x\n  - {b: 2}\nc: 2\n"),
        ("a:\n- 1\nc: 2\n", ("a",), "2", "a:\n- 1\n- 2\nc: 2\n"),
    ],
)
def test_an_item_is_added_as_its_neighbours_are_written(before, where, value, after):
    assert add_item(before, "a.yaml", where, value) == after


@pytest.mark.parametrize(
    ("add", "says"),
    [
        (lambda t: add_entry(t, "a.yaml", ("x",), "c", "2"), 'there is no "x" in the file'),
        (lambda t: add_entry(t, "a.yaml", ("a",), "b", "2"), "cannot stand in a"),
        (lambda t: add_entry(t, "a.yaml", ("a",), "c", "{d: 1}, e: {f: 2}"), "cannot stand in a"),
        (lambda t: add_entry(t, "a.yaml", ("l",), "c", "2"), "takes no entries"),
        (lambda t: add_entry(t, "a.yaml", ("a",), "c", " "), "nothing is no phrase"),
        (lambda t: add_item(t, "a.yaml", ("a",), "2"), "is no list"),
        (lambda t: add_item(t, "a.yaml", ("l",), "{b: 1"), "cannot stand in l"),
    ],
)
def test_additions_that_cannot_be(add, says):
    with pytest.raises(ReadError, match=says):
        add("a: {b: 1}\nl: [1]\n")


@pytest.mark.parametrize(
    ("before", "where", "key", "after_key", "after"),
    [
        # source: by hand
        ("a: {b: 1, d: 3}\n", ("a",), "c", "b", "a: {b: 1, c: 2, d: 3}\n"),
        ("a: 1  # x\n\nd: 3\n", (), "c", "a", "a: 1  # x\nc: 2\n\nd: 3\n"),
        ("a:\r\n  b: 1\r\nd: 3\r\n", (), "c", "a", "a:\r\n  b: 1\r\nc: 2\r\nd: 3\r\n"),
        ("a: 1\nd: 3\n", (), "c", "nothing", "a: 1\nd: 3\nc: 2\n"),
    ],
)
def test_an_entry_is_added_after_another(before, where, key, after_key, after):
    assert add_entry(before, "a.yaml", where, key, "2", after_key) == after


@pytest.mark.parametrize(
    ("before", "after"),
    [
        # source: by hand
        ("a: [1]\n", "a: [0, 1]\n"),
        ("a: []\n", "a: [0]\n"),
        ("a:\n  - {b: 1}  # x\n  - 2\n", "a:\n  - 0\n  - {b: 1}  # x\n  - 2\n"),
        ("a:\r\n- 1\r\n", "a:\r\n- 0\r\n- 1\r\n"),
    ],
)
def test_an_item_is_added_before_the_others(before, after):
    assert add_item(before, "a.yaml", ("a",), "0", first=True) == after


@pytest.mark.parametrize(
    ("before", "where", "after"),
    [
        # source: by hand
        ("a: {b: 1, c: 2}  # x\n", ("a", "b"), "a: {c: 2}  # x\n"),
        ("a: {b: 1, c: 2}  # x\n", ("a", "c"), "a: {b: 1}  # x\n"),
        ("a: {b: 1,\n  c: 2}\n", ("a", "c"), "a: {b: 1}\n"),
        ("a: {b: 1,  # x\n  c: 2, d: 3}\n", ("a", "c"), "a: {b: 1,  # x\n  d: 3}\n"),
        ("a: {b: 1,  # x\n  c: 2}\n", ("a", "b"), "a: {  # x\n  c: 2}\n"),
        ("a: {b: {d: 1}, c: 2}\n", ("a", "b", "d"), "a: {b: {}, c: 2}\n"),
        ("a: {b: 1}\nc: 2\n", ("a", "b"), "c: 2\n"),
        ("a: [1, 2, 3]\n", ("a", "2"), "a: [1, 3]\n"),
        ("z: 1\na:\n  - {b: 1}  # x\n  - {b: 2}\n", ("a", "1"), "z: 1\na:\n  - {b: 2}\n"),
        ("z: 1\na:\n  - {b: 1}  # x\n", ("a", "1"), "z: 1\n"),
        ("z: 1\n# y\na:\n  b: 1\n  c: 2", ("a", "c"), "z: 1\n# y\na:\n  b: 1"),
        ("z: 1\r\na:\r\n  b: 1\r\n  c: 2\r\n", ("a", "c"), "z: 1\r\na:\r\n  b: 1\r\n"),
        ("a:\n  - b: 1\n    c: 2\n  - 3\n", ("a", "1", "b"), "a:\n  - c: 2\n  - 3\n"),
        ("a:\n  - b: 1\n    c: 2\n  - 3\n", ("a", "1"), "a:\n  - 3\n"),
        ("a: {w: [{b: 1}], c: 2}\n", ("a", "w", "1"), "a: {c: 2}\n"),
    ],
)
def test_an_entry_is_taken_out_alone(before, where, after):
    assert remove_entry(before, "a.yaml", where) == after


@pytest.mark.parametrize(("where", "says"), [(("x",), 'no "x"'), (("b", "3"), 'no "3"'), (("a",), None)])
def test_what_is_not_there_cannot_be_taken_out(where, says):
    if says is None:
        assert remove_entry("a: 1\nb: [1, 2]\n", "a.yaml", where) == "b: [1, 2]\n"
        return
    with pytest.raises(ReadError, match=says):
        remove_entry("a: 1\nb: [1, 2]\n", "a.yaml", where)


@given(st.sampled_from([f for f in SCALARS if f.names]), st.booleans())
@settings(max_examples=60, deadline=None)
def test_taking_out_leaves_every_other_word(found, crlf):
    sample = SAMPLE.replace("\n", "\r\n") if crlf else SAMPLE
    after = remove_entry(sample, "a.yaml", found.names)
    words = [f.scalar.text for f in flattened(read_tree(after, "a.yaml"))]
    assert len(words) < len(SCALARS)
    kept = iter(f.scalar.text for f in flattened(read_tree(sample, "a.yaml")))
    assert all(word in kept for word in words), "in the same order"
    assert after.count("#") >= sample.count("#") - 1
