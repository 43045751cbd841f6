"""Words by the names that lead to them: found, changed, put; every other byte stays."""

from __future__ import annotations

import pickle
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.errors import ReadError
from scantling.piece.editing import Conflict, Stands, change_words, words_at
from scantling.piece.editing.naming import put_words, words_of
from scantling.piece.editing.phrased import phrases_of
from scantling.piece.language import read_piece_text, read_tree
from scantling.piece.language.edits import flattened

EXAMPLES = Path(__file__).parents[3] / "src" / "scantling" / "examples"
TEXTS = {
    path.name: path.read_text(encoding="utf-8")
    for path in sorted(EXAMPLES.glob("*.yaml"))
    if path.name.count(".") == 1
}


def test_words_tell_their_file_and_whether_it_may_be_changed(pieces):
    refit = pieces["sewing-desk-refit"]
    own, followed = words_at(refit, ("sizes", "leg size")), words_at(refit, ("sizes", "tray drop"))
    style = words_at(refit, ("sizes", "seam"))
    assert (own.text, own.file, own.stands) == ("40 mm", "sewing-desk-refit.yaml", Stands.OWN)
    assert (followed.text, followed.stands) == ("least within 1 to 3 by 1/8", Stands.FOLLOWED)
    assert (style.file, style.stands, style.editable) == ("hall-pieces.yaml", Stands.FOLLOWED, True)
    kit = pieces["sewing-desk"].kits["tray"]
    inside = words_of(pieces["sewing-desk"], kit.root.get("sizes").get("wall height"))
    assert (inside.text, inside.steps, inside.stands) == ("2 1/2", ("sizes", "wall height"), Stands.HOUSE)
    assert not inside.editable


def test_items_of_lists_go_by_their_numbers_in_their_own_file(pieces):
    refit = pieces["sewing-desk-refit"]
    last = words_at(refit, ("joints", "9", "with"))
    assert (last.text, last.file, last.steps) == (
        "loose tenon",
        "sewing-desk-refit.yaml",
        ("joints", "1", "with"),
    )
    with pytest.raises(ReadError, match='no "10"'):
        words_at(refit, ("joints", "10", "with"))
    with pytest.raises(ReadError, match="wants a few words"):
        words_at(refit, ("joints",))


@pytest.mark.parametrize(
    ("path", "was", "new", "after", "what"),
    [
        # source: by hand
        (("sizes", "leg"), "1  3/4", "2", "sizes: {leg: 2, Far Out: 3}  # x\n", 'leg: "1 3/4" is now "2"'),
        (("sizes", "far out"), "3", "4", "sizes: {leg: 1 3/4, Far Out: 4}  # x\n", 'far out: "3" is now "4"'),
    ],
)
def test_words_are_changed_and_told(path, was, new, after, what):
    head = "piece: a\r\nunits: inches\r\n"
    text = head + "sizes: {leg: 1 3/4, Far Out: 3}  # x\n"
    write = change_words(text, "a.yaml", path, was, new)
    assert (write.files, write.what) == ((("a.yaml", head + after),), what)
    assert write.freed == (path[1],)


@pytest.mark.parametrize(
    ("path", "now"), [(("sizes", "leg"), "1"), (("sizes", "gone"), ""), (("sizes",), "")]
)
def test_other_words_by_now_are_a_conflict(path, now):
    with pytest.raises(Conflict) as caught:
        change_words("piece: a\nunits: mm\nsizes: {leg: 1}\n", "a.yaml", path, "2", "3")
    again = pickle.loads(pickle.dumps(caught.value))
    assert (again.now, again.was, again.wanted) == (now, "2", "3")
    assert '"3" was not written' in str(again)


@pytest.mark.parametrize(
    ("path", "was", "new", "character", "says"),
    [
        # source: by hand, the character of what is not understood
        (("sizes", "leg"), "1", "2 +", 15, "a size or a place is wanted"),
        (("parts", "a", "wide"), "left to right", "left + to right", 12, "wanted"),
        (("parts", "a", "grain"), "wide", "wade", 13, "cannot be"),
    ],
)
def test_words_that_cannot_be_read_are_told_at_the_character(path, was, new, character, says):
    text = (
        "piece: a\nunits: mm\nsizes: {leg: 1}\nparts:\n  a:\n    wide: left to right\n    grain: wide\n"
        "    deep: front to back\n    high: 4 up from bottom\n"
    )
    with pytest.raises(ReadError, match=says) as caught:
        change_words(text, "a.yaml", path, was, new)
    found = read_tree(text, "a.yaml")
    for name in path:
        found = found.get(name)
    assert caught.value.place.line == found.place.line
    assert caught.value.place.character >= found.place.character
    if path[0] == "sizes":
        assert caught.value.place.character == character + 2


def test_trouble_elsewhere_does_not_stand_in_the_way():
    text = "piece: a\nunits: mm\nsizes: {leg: 1, far: 2 +}\n"
    assert change_words(text, "a.yaml", ("sizes", "leg"), "1", "5").files[0][1] == text.replace("1", "5")


SCALARS = [
    (name, found)
    for name, text in TEXTS.items()
    for found in flattened(read_tree(text, name))
    if found.steps[-1] > 0
]


@given(st.sampled_from(SCALARS), st.sampled_from(["3/4", "a b", "x, y", "it's", "3: 4"]), st.booleans())
@settings(max_examples=40, deadline=None)
def test_only_those_words_change_in_any_file(one, new, crlf):
    name, found = one
    text = TEXTS[name].replace("\n", "\r\n") if crlf else TEXTS[name]
    node = {f.steps: f.scalar for f in flattened(read_tree(text, name))}[found.steps]
    try:
        after = change_words(text, name, found.names, node.text, new).files[0][1]
    except ReadError:
        return
    start, end = node.raw
    assert after[:start] == text[:start]
    assert after.endswith(text[end:])
    assert {f.steps: f.scalar.text for f in flattened(read_tree(after, name))}[found.steps] == new


@pytest.mark.parametrize(
    ("text", "path", "after"),
    [
        # source: by hand; sections in the order of the language
        ("piece: a\nparts: {b: {}}\n", ("sizes", "c"), "piece: a\nsizes: {c: 1}\nparts: {b: {}}\n"),
        ("piece: a\nsizes: {b: 2}\n", ("sizes", "c"), "piece: a\nsizes: {b: 2, c: 1}\n"),
        ("piece: a\nsizes: {c: 2}\n", ("sizes", "c"), "piece: a\nsizes: {c: 1}\n"),
        ("piece: a\n", ("parts", "b", "wide"), "piece: a\nparts: {b: {wide: 1}}\n"),
        ("piece: a\r\nparts:\r\n  b:\r\n    deep: 2\r\n", ("parts", "b", "wide"), None),
    ],
)
def test_sections_that_are_missing_are_added(text, path, after):
    expected = after or "piece: a\r\nparts:\r\n  b:\r\n    deep: 2\r\n    wide: 1\r\n"
    assert put_words(text, "a.yaml", path, "1") == expected


def test_words_are_put_in_quotes_only_where_they_must_be():
    put = put_words("piece: a\n", "a.yaml", ("parts", "b", "note"), "it's 3, or 4")
    assert put == "piece: a\nparts: {b: {note: 'it''s 3, or 4'}}\n"
    with pytest.raises(ReadError, match="has no wide"):
        put_words("piece: a\nparts: {b: c}\n", "a.yaml", ("parts", "b", "wide"), "1")


def test_every_phrase_of_every_example_is_found_where_it_stands(pieces):
    for document in pieces.values():
        phrases = list(phrases_of(document))
        assert len(phrases) > 20
        for phrase in phrases:
            words = words_at(document, phrase.path)
            assert words.text == phrase.scalar.text
            assert words.place == phrase.scalar.place


def test_a_piece_without_units_or_parts_is_no_trouble():
    document = read_piece_text("style: a\nunits: mm\nsizes: {b: 1}\n", "a.yaml")
    assert [phrase.path for phrase in phrases_of(document)] == [("sizes", "b")]
