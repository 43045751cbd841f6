# ruff: noqa: E501 - pieces as a maker writes them, one part a line
"""Places, sizes, kinds and limits in spans."""

import pytest

from scantling.errors import ReadError, ResolveError
from scantling.piece.model import Axis

BOX = "deep: front to back, high: bottom to top, grain: high}"


def wide_of(small, phrase, extra=""):
    part = small(f"parts:\n  a: {{wide: {phrase}, {BOX}\n{extra}").part("a")
    return round(part.box.low[0] / 25.4, 4), round(part.box.high[0] / 25.4, 4)


@pytest.mark.parametrize(
    ("phrase", "low", "high"),
    [
        # source: by hand, in a box 24 wide
        ("left to right", 0, 24),
        ("left + 1 to right - 1/2", 1, 23.5),
        ("2 to 5", 2, 5),
        ("3 right from left", 0, 3),
        ("3 left from right - 1", 20, 23),
        ("3 centred on middle", 10.5, 13.5),
        ("3 centred on middle + 1", 11.5, 14.5),
        ("thick right from left", 0, 0.75),
        ("width / 2 right from left", 0, 12),
        ("2 * 1 1/2 + 1 right from left", 0, 4),
        ("254 mm right from left", 0, 10),
        ("width at most 9 right from left", 0, 9),
        ("3 at least 4 right from left", 0, 4),
        ("width / 7 rounded up to 1/4 right from left", 0, 3.5),
        ("width / 7 rounded down to 1/4 right from left", 0, 3.25),
        ("width / 7 rounded to 1/4 right from left", 0, 3.5),
        ("5 when width > 20 otherwise 2 right from left", 0, 5),
        ("5 when width > 24 otherwise 2 right from left", 0, 2),
        ("sqrt(width * width / 4) right from left", 0, 12),
        ("10 * tan(45 deg) right from left", 0, 10),
        ("50 % * width right from left", 0, 12),
    ],
)
def test_spans_by_hand(small, phrase, low, high):
    assert wide_of(small, phrase) == (low, high)


@pytest.mark.parametrize(
    ("phrase", "says"),
    [
        ("front to right", "this is a place along deep, but wide wants one along wide"),
        ("3 up from left", "`up` does not run along wide"),
        ("left + right to right", "two places cannot be added"),
        ("left / 2 to right", "a place cannot be multiplied or divided"),
        ("3 - left to right", "a size less a place has no meaning"),
        ("8 deg right from left", "this wants a length, but this is an angle"),
        ("4 pcs + 3 right from left", "this wants a length, but this is a count"),
        ("4 pcs + width right from left", "cannot be"),
        ("10 to 5", "this comes out at -5 in (-127 mm)"),
        ("5 to 5", "this leaves nothing"),
        ("width * width right from left", "this wants a length, but this is an area"),
        ("leg size right from left", 'no size is called "leg size"'),
        ("3 inward from left", "`inward` is for paired copies"),
        ("outside to right", "`outside` has no meaning along wide"),
        ("1 / 0 right from left", "divides by zero"),
        ("broad right from left", "says no width it is bought at"),
        ("3", "this says how big, 3 in (76.2 mm), but not where"),
        ("left of nothing to right", 'no part is called "nothing"'),
        ("wood right from left", '"wood" is a material, not a size'),
        ("left to 90 %", "a place along wide is wanted, but this is a ratio"),
    ],
)
def test_wrong_spans_say_why(small, phrase, says):
    with pytest.raises(ResolveError) as caught:
        wide_of(small, phrase)
    text = str(caught.value)
    assert says in text
    assert text.startswith("small.yaml:6:")
    assert "a, wide" in text


def test_an_error_points_at_the_words(small):
    with pytest.raises(ResolveError) as caught:
        wide_of(small, "left to right of back stirp")
    # source: by hand; `  a: {wide: ` is 12 characters, `left to right of ` 17, so the name begins at 30
    assert (caught.value.place.line, caught.value.place.character) == (6, 30)


def test_nearest_name(small):
    with pytest.raises(ResolveError, match=r'no part is called "back stirp" \(nearest: "back strip"\)'):
        wide_of(
            small,
            "left to left of back stirp",
            "  back strip: {wide: 5 right from left, deep: front to back, high: bottom to top, grain: high}\n",
        )


def test_a_circle_shows_its_chain(small):
    text = """parts:
  front rail: {wide: left to right, deep: 1 back from front, high: same as end rail}
  end rail: {wide: left to right, deep: 1 forward from back, high: bottom to top of front rail}
"""
    with pytest.raises(ResolveError) as caught:
        small(text)
    assert "front rail high -> end rail high -> front rail high" in str(caught.value)


def test_each_axis_by_itself_is_no_circle(small, inches):
    text = """parts:
  a: {wide: height of b right from left, deep: 1 back from front, high: bottom to top, grain: high}
  b: {wide: 3 right from left, deep: 1 forward from back, high: depth of a up from bottom, grain: wide}
"""
    piece = small(text)
    # source: by hand; b is as high as a is deep, 1; a is as wide as b is high, 1
    assert inches(piece.part("a").box.size(Axis.WIDE)) == (1.0,)


def test_between_takes_faces_that_look_at_each_other(small, inches):
    text = """parts:
  a: {wide: 2 right from left, deep: front to back, high: bottom to top, grain: high}
  b: {wide: 3 left from right, deep: front to back, high: bottom to top, grain: high}
  shelf: {wide: between a and b, deep: front to back, high: thick up from bottom + 4, grain: wide}
  wrong: {wide: between left and b, deep: front to back, high: thick up from bottom + 8, grain: wide}
"""
    piece = small(text)
    assert inches(piece.part("shelf").box.low[0], piece.part("shelf").box.high[0]) == (2.0, 21.0)
    assert inches(piece.part("wrong").box.low[0]) == (0.0,)


def test_sizes_are_strict(small):
    with pytest.raises(ResolveError, match="a named size is a size, but this is a place"):
        small("sizes: {edge: right}\nparts: {a: {wide: edge right from left, " + BOX + "}")
    with pytest.raises(ResolveError, match="wants a length, but this is an angle"):
        small("sizes: {splay: 9 deg}\nparts: {a: {wide: splay + 3 right from left, " + BOX + "}")


def test_a_size_may_use_its_own_kit_word(small, inches):
    text = """sizes: {thickness: 2}
parts: {a: {wide: thickness right from left, deep: front to back, high: bottom to top, grain: high}}
"""
    assert inches(small(text).part("a").box.size(Axis.WIDE)) == (2.0,)


def test_mm_and_inches_mix(small):
    text = "parts: {a: {wide: 152 mm right from left + 1, " + BOX + "}"
    assert round(small(text).part("a").box.size(Axis.WIDE), 6) == 152


def test_free_size_stands_at_its_low_end(small):
    piece = small(
        "sizes: {drop: least within 1 to 3 by 1/8, reach: most within 2 to 5}\nparts: {a: {wide: drop right from left, "
        + BOX
        + "}"
    )
    drop, reach = piece.size("drop"), piece.size("reach")
    assert (drop.value, drop.range.low, drop.range.high, drop.range.step, drop.range.wish) == (
        25.4,
        25.4,
        pytest.approx(76.2),
        pytest.approx(3.175),
        "least",
    )
    assert reach.value == pytest.approx(127)


def test_a_setting_stands_instead_of_the_file(small, inches):
    text = "sizes: {drop: 3 within 1 to 4}\nparts: {a: {wide: drop right from left, " + BOX + "}"
    piece = small(text, drop="1 5/8")
    assert inches(piece.part("a").box.size(Axis.WIDE)) == (1.625,)
    assert piece.size("drop").text == "1 5/8"
    assert piece.size("drop").range.low == 25.4
    assert inches(small(text, overall_wide="20").overall.high[0]) == (20.0,)


def test_an_unknown_setting_is_named(small):
    with pytest.raises(ResolveError, match=r'no setting "dorp" \(nearest: "drop"\)'):
        small("sizes: {drop: 3}\nparts: {a: {wide: drop right from left, " + BOX + "}", dorp="2")


def test_overall_is_wanted(small):
    with pytest.raises(ResolveError, match="does not say how high"):
        small(
            "parts: {a: {wide: left to right, " + BOX + "}",
            head="piece: p\nunits: inches\noverall: {wide: 3, deep: 3}\nmaterials: {wood: cherry 3/4}\n",
        )


def test_bad_words_are_read_errors(small):
    with pytest.raises(ReadError):
        wide_of(small, "min(2 3) right from left")


def test_grain_must_be_said_where_it_cannot_be_told(small):
    # source: by hand; 4 x 5 is under 1 1/2 times
    with pytest.raises(ResolveError, match="too alike to tell which way the grain runs"):
        small("parts: {a: {wide: 4 right from left, deep: thick back from front, high: 5 up from bottom}}")
    part = small(
        "parts: {a: {wide: 4 right from left, deep: thick back from front, high: 6 up from bottom}}"
    ).part("a")
    assert part.grain is Axis.HIGH
