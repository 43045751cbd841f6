"""Whatever words stand in a phrase, there is a tree that lies within them, or an error that does."""

from __future__ import annotations

import dataclasses

from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.errors import Place, ReadError
from scantling.piece import language as lang
from scantling.piece.language import Scalar
from scantling.piece.language import phrases as p

PARSERS = [
    *(lang.parse_by, lang.parse_condition, lang.parse_counts, lang.parse_edge, lang.parse_expression),
    *(lang.parse_fitting, lang.parse_glue, lang.parse_limit, lang.parse_material, lang.parse_move),
    *(
        lang.parse_name,
        lang.parse_options,
        lang.parse_size,
        lang.parse_span,
        lang.parse_target,
        lang.parse_turn,
    ),
]
VOCABULARY = [
    *sorted(p.RESERVED | p.DIRECTIONS | p.PLACE_WORDS | p.SIZE_WORDS | p.OWN_WORDS),
    *(
        "leg",
        "front rail",
        "gap",
        "least",
        "most",
        "free",
        "on",
        "up",
        "any",
        "every",
        "edge",
        "toward",
        "about",
    ),
    *(
        "1",
        "1 1/2",
        "38 mm",
        "8 deg",
        "60 %",
        "4 pcs",
        "3'",
        "(",
        ")",
        "+",
        "-",
        "*",
        "/",
        ">",
        "<=",
        "tan(",
        "none",
    ),
]
SOUP = st.lists(st.sampled_from(VOCABULARY), max_size=9).map(" ".join)
TEXT = st.text(max_size=20, alphabet="ab1 2/-½'\"()x.,+*<>=#of")


def inner_nodes(node):
    for field in dataclasses.fields(node):
        value = getattr(node, field.name)
        for item in value if isinstance(value, tuple) else (value,):
            if isinstance(item, p.Words):
                yield item


def check_within(node, text):
    assert node.offset >= 0
    assert node.length >= 1
    assert node.offset + node.length <= len(text)
    for inner in inner_nodes(node):
        assert node.offset <= inner.offset
        assert inner.offset + inner.length <= node.offset + node.length
        check_within(inner, text)


@given(st.sampled_from(PARSERS), SOUP | TEXT)
@settings(max_examples=800, deadline=None)
def test_any_words_are_a_tree_or_an_error_within_them(parse, text):
    place = None
    try:
        found = parse(Scalar(text, Place("a.yaml", 1, 1, len(text))))
    except ReadError as error:
        place = error.place
    else:
        if isinstance(found, p.Words):
            check_within(found, text)
        return
    assert place is not None
    assert 1 <= place.character <= len(text) + 1


@given(st.sampled_from(PARSERS), SOUP)
@settings(max_examples=200, deadline=None)
def test_spaces_and_capitals_do_not_matter(parse, text):
    def answer(words):
        try:
            return shape(parse(Scalar(words, Place("a.yaml", 1, 1, len(words)))))
        except ReadError as error:
            return error.message.lower()

    assert answer(text) == answer(
        f"  {text.title()} ".replace("Deg", "deg").replace("Mm", "mm").replace("Pcs", "pcs")
    )


def shape(node):
    """A tree without its places."""
    if isinstance(node, tuple):
        return tuple(shape(item) for item in node)
    if not dataclasses.is_dataclass(node):
        return node
    names = [f.name for f in dataclasses.fields(node) if f.name not in ("offset", "length")]
    return (type(node).__name__, *(shape(getattr(node, name)) for name in names))
