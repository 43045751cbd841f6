"""Build records: what they say of parts and boards, and where a slip is."""

from __future__ import annotations

import pytest

from scantling.errors import ReadError
from scantling.piece import read_record_text
from scantling.piece.model import Axis, GrainWish, StockUse
from scantling.quantity import LengthUnit

INCH = 25.4


def read(lines: str, unit: LengthUnit | None = LengthUnit.INCHES):
    return read_record_text(f"build: one\n{lines}\n", "one.build.yaml", unit)


def test_what_old_records_say_is_read_as_before() -> None:
    (noted,) = read("left rail: {deep: 80 3/8, cut: done}").measured
    assert noted.part == "left rail"
    assert dict(noted.sizes) == {Axis.DEEP: pytest.approx(80.375 * INCH)}
    assert noted.cut
    assert (noted.stock, noted.spoiled, noted.grain) == ((), 0, None)


def test_wishes_of_a_part() -> None:
    first, second = read("rail: {from: W3, grain: may turn}\nleg: {from: [W1, P3#2], spoiled: 2}").measured
    assert first.stock == ("W3",)
    assert first.grain is GrainWish.MAY_TURN
    assert second.stock == ("W1", "P3#2")
    assert second.spoiled == 2


def test_boards_left_alone_and_cut() -> None:
    leave, cut = read(
        "boards:\n  W2: leave\n  W7: {cut: {rail: 31 x 4 x 3/4}, left: [12 x 5 at 32 x 0]}"
    ).stock
    assert (leave.stock, leave.use) == ("W2", StockUse.LEAVE)
    assert cut.use is StockUse.CUT
    (blank,) = cut.blanks
    assert blank.name == "rail"
    sizes = [size.mm for size in (blank.long, blank.wide, blank.thick)]
    assert sizes == pytest.approx([31 * INCH, 4 * INCH, 0.75 * INCH])
    (offcut,) = cut.left
    assert (offcut.long.mm, offcut.wide.mm) == pytest.approx((12 * INCH, 5 * INCH))
    assert offcut.at is not None
    assert [at.mm for at in offcut.at] == pytest.approx([32 * INCH, 0])


def test_a_board_may_be_called_anything_the_shop_calls_it() -> None:
    (used,) = read("boards: {walnut 4/4 rough#2: cut}").stock
    assert used.stock == "walnut 4/4 rough#2"


def test_numbers_without_a_unit_are_the_pieces() -> None:
    (used,) = read("boards: {W7: {left: [300 x 4 in]}}", None).stock
    (offcut,) = used.left
    assert offcut.long.within(LengthUnit.MM) == 300
    assert offcut.long.within(LengthUnit.INCHES) == 300 * INCH
    assert offcut.wide.within(LengthUnit.MM) == 4 * INCH


def test_which_blank_of_its_part_a_name_means() -> None:
    names = [
        "leg",
        "leg again",
        "leg again 2",
        "leg layer 2",
        "leg again stave 3",
        "legs",
        "left leg",
        "leg rail",
    ]
    cut = ", ".join(f"{name}: 3 x 2 x 1" for name in names)
    (used,) = read(f"boards: {{W1: {{cut: {{{cut}}}}}}}").stock
    found = [blank.number_for("leg") for blank in used.blanks]
    assert [(n.again, n.role, n.number) if n else None for n in found] == [
        (0, "", 1),
        (1, "", 1),
        (2, "", 1),
        (0, "layer", 2),
        (1, "stave", 3),
        None,
        None,
        None,
    ]
    assert [blank.part for blank in used.blanks] == [*["leg"] * 5, "legs", "left leg", "leg rail"]


def test_what_was_spoiled_does_not_stand() -> None:
    record = read(
        "boards:\n"
        "  W1: {cut: {leg stave 1: 30 x 2 x 1, leg stave 2: 30 x 2 x 1}}\n"
        "  W2: {cut: {leg again stave 4: 30 x 2 x 1}}"
    )
    standing = [[blank.name for blank in record.standing("leg", spoiled)] for spoiled in range(3)]
    assert standing == [["leg stave 1", "leg stave 2", "leg again stave 4"], ["leg again stave 4"], []]


def test_a_name_noted_once_more_is_the_next_making() -> None:
    record = read("boards: {W1: {cut: {leg: 30 x 2 x 1}}, W2: {cut: {leg: 31 x 2 x 1}}}")
    (blank,) = record.standing("leg", 1)
    assert blank.long.mm == 31 * INCH
    assert record.standing("leg", 2) == ()


@pytest.mark.parametrize(
    ("line", "character", "words"),
    [
        ("boards: {W2: leaf}", 14, '"leave"'),
        ("boards: {W2: [cut]}", 14, "leave"),
        ("boards: {W2: {gave: {}}}", 15, "known: cut, left"),
        ("boards: {W2: {cut: {a: 3 x 4}}}", 24, "29 1/8 x 2 1/4 x 7/8"),
        ("boards: {W2: {cut: {a: 3 x 4 x z}}}", 32, '"z" is not a number'),
        ("boards: {W2: {cut: {a: 3 x 0 x 4}}}", 28, "more than nothing"),
        ("boards: {W2: {left: [3 x 4 at 5]}}", 31, "31 x 4 1/2 at 62 x 0"),
        ("boards: {W2: {left: 3 x 4}}", 21, "a list"),
        ("rail: {spoiled: no}", 17, "as in `1`"),
        ("rail: {spoiled: 0}", 17, "as in `1`"),
        ("rail: {grain: turns}", 15, '"may turn"'),
        ("rail: {form: W3}", 8, '"from"'),
    ],
)
def test_slips_are_shown_at_the_character(line: str, character: int, words: str) -> None:
    with pytest.raises(ReadError) as caught:
        read(line)
    assert caught.value.place is not None
    assert (caught.value.place.line, caught.value.place.character) == (2, character)
    assert words in str(caught.value)
