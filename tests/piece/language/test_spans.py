"""Spans, ranges, edges, turns, moves and the short settings."""

from __future__ import annotations

import pytest

from scantling.errors import ReadError
from scantling.piece import language as lang
from scantling.piece.language import phrases as p


def words_of(node, text):
    return text[node.offset : node.offset + node.length]


# source: by hand, from section 1 of the language on paper
@pytest.mark.parametrize(
    ("text", "kind", "parts"),
    [
        ("front + overhang to back", p.FromTo, {"low": "front + overhang", "high": "back"}),
        ("back of back to back", p.FromTo, {"low": "back of back", "high": "back"}),
        ("4 to bottom of rail", p.FromTo, {"low": "4", "high": "bottom of rail"}),
        ("a rounded up to 2 to b", p.FromTo, {"low": "a rounded up to 2", "high": "b"}),
        (
            "left to right when a is b otherwise middle",
            p.FromTo,
            {"low": "left", "high": "right when a is b otherwise middle"},
        ),
        ("between front leg and back leg", p.Between, {"first": "front leg", "second": "back leg"}),
        ("between bottom and top", p.Between, {"first": "bottom", "second": "top"}),
        ("thick inward from outside of leg", p.Measured, {"size": "thick", "start": "outside of leg"}),
        ("thick back from front", p.Measured, {"size": "thick", "start": "front"}),
        (
            "height of machine + tray drop down from bottom of lid board",
            p.Measured,
            {"size": "height of machine + tray drop", "start": "bottom of lid board"},
        ),
        ("rail height down from rail top", p.Measured, {"size": "rail height", "start": "rail top"}),
        ("3 centred on middle", p.Centred, {"size": "3", "middle": "middle"}),
        (
            "apron across - 2 * apron wall centred on middle",
            p.Centred,
            {"size": "apron across - 2 * apron wall", "middle": "middle"},
        ),
        ("same as side rail", p.SameAs, {"part": "side rail"}),
        ("broad", p.SizeAlone, {"size": "broad"}),
    ],
)
def test_spans(scalar, text, kind, parts):
    node = lang.parse_span(scalar(text))
    assert type(node) is kind
    assert words_of(node, text) == text
    assert {name: words_of(getattr(node, name), text) for name in parts} == parts


def test_the_direction_of_a_measured_span(scalar):
    for direction in sorted(p.DIRECTIONS):
        assert lang.parse_span(scalar(f"leg size {direction} from left")).direction == direction


@pytest.mark.parametrize(
    ("marked", "says"),
    [
        ("left to right ‸to back", "a span is `A to B`"),
        ("between leg‸", "between X and Y"),
        ("between leg and‸", "the name of a part"),
        ("between left ‸of leg and right", "right of X to left of Y"),
        ("between leg and rail ‸- 1/8", "right of X to left of Y"),
        ("3 ‸from left", "wants a direction"),
        ("3 ‸forward", "`from` after it"),
        ("3 ‸centered on middle", "centred"),
        ("3 centred ‸middle", "3 centred on middle"),
        ("same ‸side rail", "same as side rail"),
        ("38 ‸within 34 to 42", "under `sizes`"),
        ("left to‸", "a size or a place is wanted"),
        ("‸to right", "a size or a place is wanted"),
        ("left, ‸to", None),
        ("left to right ‸)", "not expected"),
    ],
)
def test_slips_in_spans(scalar, refused, marked, says):
    if says is None:
        with pytest.raises(ReadError):
            lang.parse_span(scalar(marked.replace("‸", "")))
        return
    assert says in str(refused(lambda text: lang.parse_span(scalar(text)), marked))


def test_ranges(scalar):
    node = lang.parse_size(scalar("38 within 34 to 42 by 1/2"))
    assert (node.value.plain, node.low.plain, node.high.plain, node.step.plain) == (38, 34, 42, 0.5)
    wish = lang.parse_size(scalar("least within 1 to 3 by 1/8"))
    assert (wish.value, wish.wish, wish.step.plain) == (None, "least", 0.125)
    assert lang.parse_size(scalar("free within 1 to 3")).wish == "free"
    assert lang.parse_size(scalar("9 deg within 6 deg to 12 deg")).step is None
    assert lang.parse_size(scalar("least gap")).text == "least gap"
    assert isinstance(lang.parse_size(scalar("2 * a")), p.Arithmetic)


@pytest.mark.parametrize(
    ("parse", "marked", "says"),
    [
        (lang.parse_size, "least‸", "wants a range"),
        (lang.parse_size, "38 within 34‸", "38 within 34 to 42"),
        (lang.parse_size, "38 within ‸to 42", "wanted"),
        (lang.parse_size, "38 within 34 to 42 in ‸steps of 1", "steps are `by 1/8`"),
        (lang.parse_edge, "‸lid", "an edge is wanted"),
        (lang.parse_edge, "top back ‸left", "two faces"),
        (lang.parse_edge, "every ‸side", "every edge"),
        (lang.parse_face, "‸side", "left, right, front"),
        (lang.parse_face, "left ‸right", "not expected"),
        (lang.parse_turn, "front ‸top 100 deg", "front toward top"),
        (lang.parse_turn, "front toward top‸", "how far it turns"),
        (lang.parse_turn, "‸lid toward top 3 deg", "a face is wanted"),
        (lang.parse_move, "‸12", "ends with its direction"),
        (lang.parse_move, "‸forward", "ends with its direction"),
        (lang.parse_move, "12 13 ‸forward", None),
        (lang.parse_by, "3/8 x‸", "wanted"),
        (lang.parse_by, "‸1 x 2 x 3 x 4", "more than three"),
        (lang.parse_by, "‸#8 x 1 1/4", "8 x 1 1/4"),
        (lang.parse_counts, "‸2 1/2", "whole number"),
        (lang.parse_counts, "3 to ‸x", "whole number"),
        (lang.parse_counts, "‸6 to 3", "runs backward"),
        (lang.parse_limit, "at ‸2", "at most 2 1/2"),
        (lang.parse_glue, "‸3", "front 3"),
        (lang.parse_glue, "none ‸3", "not expected"),
        (lang.parse_target, "‸inner of top", "no face"),
        (lang.parse_options, "dowels or ‸dowels", "offered twice"),
        (lang.parse_options, "dowels or‸", "one of the choices"),
        (lang.parse_material, "‸3/4", "a timber or a sheet"),
        (lang.parse_material, "cherry ‸8 deg", "no size"),
        (lang.parse_material, "pine ‸2 1/2x4", "no lumber size"),
        (lang.parse_fitting, "‸2 1/2", "a kind of hardware"),
        (lang.parse_coats, "‸many coats", "whole number"),
        (lang.parse_name, "‸2 shelf", "a name is wanted"),
        (lang.parse_name, "rail ‸of leg", "not expected"),
    ],
)
def test_slips_in_settings(scalar, refused, parse, marked, says):
    if says is None:
        with pytest.raises(ReadError):
            parse(scalar(marked.replace("‸", "")))
        return
    assert says in str(refused(lambda text: parse(scalar(text)), marked))


def test_settings(scalar):
    # source: by hand, phrases of the ten files
    edge = lang.parse_edge(scalar("top back of lid board"))
    assert (edge.faces, edge.of.text) == (("top", "back"), "lid board")
    assert lang.parse_edge(scalar("every edge")).faces == ("every",)
    turn = lang.parse_turn(scalar("top toward back 15 deg about bottom back"))
    assert (turn.face, turn.toward, turn.angle.value, turn.about.faces) == (
        "top",
        "back",
        15,
        ("bottom", "back"),
    )
    move = lang.parse_move(scalar("length of slide forward"))
    assert (move.size.word, move.size.of.text, move.direction) == ("length", "slide", "forward")
    assert [s.plain for s in lang.parse_by(scalar("8 x 1 1/4")).sizes] == [8, 1.25]
    assert [s.plain for s in lang.parse_by(scalar("29x78")).sizes] == [29, 78]
    assert [s.plain for s in lang.parse_by(scalar("29×78")).sizes] == [29, 78]
    counts = lang.parse_counts(scalar("3 to 6"))
    assert (counts.least, counts.most) == (3, 6)
    limit = lang.parse_limit(scalar("at most 2 1/2"))
    assert (limit.bound, limit.size.plain) == ("most", 2.5)
    assert lang.parse_limit(scalar("2")).bound == "exact"
    glue = lang.parse_glue(scalar("front 3"))
    assert (glue.where, glue.length_glued.plain) == ("front", 3)
    assert lang.parse_glue(scalar("none")).length_glued is None
    target = lang.parse_target(scalar("edge of top"))
    assert (target.word, target.of.text) == ("edge", "top")
    assert lang.parse_target(scalar("lid board")).word is None
    assert [n.text for n in lang.parse_options(scalar("half-blind dovetails or rabbet")).options] == [
        "half-blind dovetails",
        "rabbet",
    ]
    assert lang.parse_options(scalar("any of rabbet or dowels")).any_of
    assert lang.parse_coats(scalar("3 coats")) == 3
    fitting = lang.parse_fitting(scalar("butt hinge 2 1/2"))
    assert (fitting.words, fitting.size.plain) == (("butt", "hinge"), 2.5)


def test_materials(scalar):
    # source: by hand, phrases of the ten files
    first, second = lang.parse_material(scalar("walnut plywood 3/4 or walnut 3/4")).options
    assert (first.words, first.thick.plain, second.words) == (("walnut", "plywood"), 0.75, ("walnut",))
    assert lang.parse_material(scalar("pine 2x4")).options[0].nominal == "2x4"
    assert lang.parse_material(scalar("pine 5/4 x 6")).options[0].nominal == "5/4x6"
    assert lang.parse_material(scalar("given")).options[0].thick is None
    assert lang.parse_material(scalar("any of cherry or oak")).any_of
    assert lang.parse_material(scalar("birch plywood 18 mm")).options[0].thick.value == 18
