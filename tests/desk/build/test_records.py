"""What is noted comes to stand in the record, and nothing else there moves."""

from __future__ import annotations

import pytest

from scantling.desk.build.records import Record, unit_of
from scantling.errors import ReadError
from scantling.piece import read_record_text
from scantling.piece.model import Axis
from scantling.quantity import LengthUnit

INCHES, MM = LengthUnit.INCHES, LengthUnit.MM
KEPT = "build: box   # the second one\nunits: mm\n# by hand\nlid: {wide: 300, note: a knot}\n"


def test_a_record_is_begun_with_the_first_note() -> None:
    text = Record("r", None, "Box: the 2nd").measured("lid", "wide", "12 1/8", INCHES, done=True)
    read = read_record_text(text, "r")
    assert read.name == "Box: the 2nd"
    noted = read.of("lid")
    assert noted
    assert dict(noted.sizes)[Axis.WIDE] == pytest.approx(12.125 * 25.4)  # source: exact
    assert noted.cut


def test_what_stands_there_stays_as_it_is_written() -> None:
    text = Record("r", KEPT, "box").measured("lid", "deep", "200", MM, done=False)
    assert text == KEPT.replace("note: a knot", "note: a knot, deep: 200")


def test_inches_in_a_record_of_mm_say_so() -> None:
    text = Record("r", KEPT, "box").measured("lid", "wide", "12 1/8", INCHES, done=False)
    assert "wide: 12 1/8 in" in text
    assert "wide: 310 mm" in Record("r", KEPT, "box").measured("lid", "wide", "310 mm", INCHES, done=False)


def test_a_part_lost_twice() -> None:
    once = Record("r", None, "box").spoiled("lid", 1)
    twice = Record("r", once, "box").spoiled("lid", 2)
    noted = read_record_text(twice, "r").of("lid")
    assert noted
    assert noted.spoiled == 2


def test_boards_cut() -> None:
    entries = [
        ("W3", "{cut: {lid: 13 x 5 x 3/8}, left: [20 x 5 at 13 x 0]}"),
        ("P1#2", "{cut: {base: 9 x 9 x 1/4}}"),
    ]
    read = read_record_text(Record("r", None, "box").boards_cut(entries), "r")
    assert [(used.stock, [blank.name for blank in used.blanks], len(used.left)) for used in read.stock] == [
        ("W3", ["lid"], 1),
        ("P1#2", ["base"], 0),
    ]


@pytest.mark.parametrize("words", ["", "two feet", "0", "-3", "3 lb", "1/0", "{a: 1}"])
def test_words_that_are_no_size_are_refused_with_what_to_write(words: str) -> None:
    with pytest.raises(ReadError) as refused:
        Record("r", None, "box").measured("lid", "wide", words, INCHES, done=True)
    assert refused.value.message


def test_the_unit_of_a_record() -> None:
    assert unit_of(None, "r", INCHES) is INCHES
    assert unit_of("build: box\n", "r", MM) is MM
    assert unit_of(KEPT, "r", INCHES) is MM
