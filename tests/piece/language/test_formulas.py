"""Formulas and conditions: how words bind, and what is said when they do not."""

from __future__ import annotations

import pytest

from scantling.errors import ReadError
from scantling.piece.language import parse_condition, parse_expression, parse_name
from scantling.piece.language import phrases as p
from scantling.quantity import Kind, LengthUnit


def shown(node):
    """A tree in brackets, small enough to compare by eye."""
    match node:
        case p.Number(plain=plain, kind=None):
            return f"{plain:g}"
        case p.Number(value=value, kind=kind):
            return f"{value:g} {kind.value}"
        case p.Name():
            return node.text
        case p.FaceOf() | p.SizeOf():
            of = f" of {node.of.text}" if node.of else ""
            at = f" at {shown(node.at)}" if node.at else ""
            return f"<{node.word}{of}{at}>"
        case p.OwnSize():
            return f"own {node.word}"
        case p.Negative():
            return f"-{shown(node.value)}"
        case p.Arithmetic():
            return f"({shown(node.left)} {node.sign} {shown(node.right)})"
        case p.FunctionOf():
            return f"{node.name}[{shown(node.value)}]"
        case p.AtLeast():
            return f"[{shown(node.value)} >= {shown(node.limit)}]"
        case p.AtMost():
            return f"[{shown(node.value)} <= {shown(node.limit)}]"
        case p.Rounded():
            return f"[{shown(node.value)} {node.way} {shown(node.step)}]"
        case p.When():
            return f"{{{shown(node.condition)} ? {shown(node.value)} : {shown(node.other)}}}"
        case p.Compare():
            return f"{shown(node.left)} {node.sign} {shown(node.right)}"
        case p.Is():
            return f"{node.name.text} {'isnt' if node.negated else 'is'} {node.option.text}"
        case p.Both():
            return f"({shown(node.left)} & {shown(node.right)})"
        case p.Either():
            return f"({shown(node.left)} | {shown(node.right)})"
        case p.Not():
            return f"!{shown(node.condition)}"
    raise AssertionError(node)


# source: by hand, from sections 1 and 2 of the language on paper
@pytest.mark.parametrize(
    ("text", "tree"),
    [
        ("1 1/2", "1.5"),
        ("08", "8"),
        ("1\u00a01/2", "1.5"),
        ("leg\u00a0size", "leg size"),
        ("38 mm", "38 length"),
        ("3' 2 1/4\"", "971.55 length"),
        ("8 deg", "8 angle"),
        ("4 pcs", "4 count"),
        ("60 %", "0.6 ratio"),
        ("leg size", "leg size"),
        ("Leg  Size", "leg size"),
        ("leg-size", "leg-size"),
        ("maker's mark", "maker's mark"),
        ("drawer 03 left side", "drawer 3 left side"),
        ("top", "<top>"),
        ("floor", "<floor>"),
        ("width", "<width>"),
        ("thick", "own thick"),
        ("broad", "own broad"),
        ("top of leg", "<top of leg>"),
        ("top of bottom frame", "<top of bottom frame>"),
        ("back of back", "<back of back>"),
        ("thickness of side", "<thickness of side>"),
        ("rise of drawer", "<rise of drawer>"),
        ("left of leg at 7", "<left of leg at 7>"),
        ("left of leg at 7 - 1/8", "(<left of leg at 7> - 0.125)"),
        ("left of leg at (7 + 1)", "<left of leg at (7 + 1)>"),
        ("left of leg at least 7", "[<left of leg> >= 7]"),
        ("a + b * c", "(a + (b * c))"),
        ("a - b - c", "((a - b) - c)"),
        ("a / b / c", "((a / b) / c)"),
        ("(a + b) * 2", "((a + b) * 2)"),
        ("-a + b", "(-a + b)"),
        ("- - a", "--a"),
        ("overhang-1", "(overhang - 1)"),
        ("overhang - 1", "(overhang - 1)"),
        ("overhang−1", "(overhang - 1)"),
        ("8-1/2", "8.5"),
        ("8 - 1/2", "(8 - 0.5)"),
        ("8 -1/2", "(8 - 0.5)"),
        ("8- 1/2", "(8 - 0.5)"),
        ("width / 2", "(<width> / 2)"),
        ("width/2", "(<width> / 2)"),
        ("width / (2/3)", "(<width> / 0.666667)"),
        ("2/3 * width", "(0.666667 * <width>)"),
        ("tan(8 deg) * height", "(tan[8 angle] * <height>)"),
        ("sqrt (a * a)", "sqrt[(a * a)]"),
        ("a at least b", "[a >= b]"),
        ("a at most b + 1", "[a <= (b + 1)]"),
        ("a at least 1 at most 3", "[[a >= 1] <= 3]"),
        ("depth of tray place - 1 rounded down to 2", "[(<depth of tray place> - 1) down 2]"),
        ("a rounded up to 1/8", "[a up 0.125]"),
        ("a rounded to 1/8", "[a near 0.125]"),
        ("1 when width > 36 otherwise 2", "{<width> > 36 ? 1 : 2}"),
        ("1 when a is b otherwise 2 when c is d otherwise 3", "{a is b ? 1 : {c is d ? 2 : 3}}"),
        (
            "gap when runs on is wooden runners otherwise 13 mm",
            "{runs on is wooden runners ? gap : 13 length}",
        ),
        ("2 * leg size", "(2 * leg size)"),
    ],
)
def test_formulas(scalar, text, tree):
    assert shown(parse_expression(scalar(text))) == tree


@pytest.mark.parametrize(
    ("text", "tree"),
    [
        ("width > 36", "<width> > 36"),
        ("a + 1 <= b", "(a + 1) <= b"),
        ("panels is solid", "panels is solid"),
        ("hung on is not left", "hung on isnt left"),
        ("back is panel", "back is panel"),
        ("not a is b", "!a is b"),
        ("a is b and c is d or e is f", "((a is b & c is d) | e is f)"),
        ("a is b and (c is d or e is f)", "(a is b & (c is d | e is f))"),
        ("(a + b) * 2 > 3", "((a + b) * 2) > 3"),
        ("not (a is b or c > 1)", "!(a is b | c > 1)"),
        ("a ≥ 2", "a >= 2"),
    ],
)
def test_conditions(scalar, text, tree):
    assert shown(parse_condition(scalar(text))) == tree


def test_a_bare_number_keeps_both_meanings(scalar):
    # source: by hand; 2 in = 50.8 mm
    inches, mm = parse_expression(scalar("2")), parse_expression(scalar("2", LengthUnit.MM))
    assert (inches.plain, inches.value, inches.kind) == (2, 50.8, None)
    assert (mm.plain, mm.value, mm.kind) == (2, 2, None)
    assert parse_expression(scalar("2 in", LengthUnit.MM)).kind is Kind.LENGTH


def test_every_node_says_where_it_stands(scalar):
    words = "leg size - (top of leg at 7) * 2"
    node = parse_expression(scalar(words))

    def text(n):
        return words[n.offset : n.offset + n.length]

    assert text(node) == words
    assert text(node.left) == "leg size"
    assert text(node.right.left) == "top of leg at 7"
    assert text(node.right.left.of) == "leg"
    assert text(node.right.right) == "2"
    assert scalar(words).place_of(node.right.right).character == words.index("2") + 1


@pytest.mark.parametrize(
    ("marked", "says"),
    [
        ("‸", "a size or a place is wanted at the end"),
        ("1 +‸", "wanted at the end"),
        ("1 + ‸)", 'wanted before ")"'),
        ("(1 + 2‸", "close the bracket"),
        ("(1‸ 2)", None),
        ("1 1/2 ‸2", "two numbers stand side by side"),
        ("leg size ‸2 1/2", "put + or - between"),
        ("leg size ‸(2)", "not expected"),
        ("3‸,5", "write a point, as in 3.5"),
        ("1.2‸.3", "a point too many"),
        ("a‸, b", "A at most B"),
        ("1/‸0", "divided by 0"),
        ("8-‸9/8", "subtracts"),
        ("a / ‸2/3", "write `/ (2/3)`"),
        ("‸min(2)", "write `A at most B`"),
        ("‸max (2)", "write `A at least B`"),
        ("1 + ‸round(2)", "write `A rounded to B`"),
        ("‸if(2)", "write `A when C otherwise B`"),
        ("‸cos(2)", "only `tan( )` and `sqrt( )`"),
        ("leg‸.width", "width of leg"),
        ("leg‸_size", "plain words with spaces"),
        ("a ‸= 2", "compare with"),
        ("a when b ‸= 2 otherwise 3", "compare with"),
        ("‸'leg'", "names need no quotes"),
        ('‸"leg"', "names need no quotes"),
        ("2 ‸^ 2", "multiply"),
        ("‸#8 x 2", "8 x 1 1/4"),
        ("a ‸& b", "write `and`"),
        ("a ‸| b", "write `or`"),
        ("‸!a", "write `not`"),
        ("1‸:8", "60 %"),
        ("a ‸; b", "one thing"),
        ("a ‸[1]", "group with ( )"),
        ("a ‸{1}", "group with ( )"),
        ("a ‸$ 2", "no meaning"),
        ("‸of leg", "word of the language"),
        ("top of‸", "the name of a part"),
        ("top of ‸of", "may not stand in a name"),
        ("top of side ‸of drawer", "one `of` is enough"),
        ("1 + ‸top back of lid", "is an edge"),
        ("a rounded ‸2", "rounded up to 2"),
        ("a when‸", "wanted at the end"),
        ("a when b‸", "a comparison is wanted at the end"),
        ("a when b ‸otherwise c", "a comparison is wanted"),
        ("a when b is c‸", "write `A when C otherwise B`"),
        ("a when ‸width + 1 is c otherwise b", "only a choice or a material"),
        ("a when b is ‸3 otherwise b", "a choice"),
        ("top ‸at", "not expected"),
        ("3' 2 ‸mm", "followed by inches"),
        ("12345678901", None),
    ],
)
def test_slips_in_formulas(scalar, refused, marked, says):
    if says is None:
        with pytest.raises(ReadError):
            parse_expression(scalar(marked.replace("‸", "")))
        return
    error = refused(lambda text: parse_expression(scalar(text)), marked)
    assert says in str(error)


def test_the_length_of_the_place_covers_the_words(scalar):
    with pytest.raises(ReadError) as caught:
        parse_expression(scalar("1 + top back of lid"))
    assert caught.value.place.length == len("top back")


def test_phrases_are_bounded(scalar, refused):
    assert "nested too deeply" in str(
        refused(lambda t: parse_expression(scalar(t)), "(" * 40 + "‸" + "(" * 20)
    )
    assert "nested too deeply" in str(refused(lambda t: parse_expression(scalar(t)), "- " * 40 + "‸- 2"))
    assert "too many words" in str(refused(lambda t: parse_expression(scalar(t)), "1 " * 200 + "‸1"))
    assert "too long" in str(refused(lambda t: parse_expression(scalar(t)), "‸" + "a" * 1001))


@pytest.mark.parametrize("word", sorted(p.RESERVED))
def test_words_of_the_language_may_not_stand_in_a_name(scalar, word):
    for text in (f"{word} rail", f"long {word}"):
        with pytest.raises(ReadError):
            parse_name(scalar(text))
    assert parse_name(scalar("rest on")).words == ("rest", "on")
