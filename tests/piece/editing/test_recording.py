"""Build records: begun, added to, corrected, and every other byte left."""

from __future__ import annotations

import pytest

from scantling.errors import ReadError
from scantling.piece.editing import (
    clear_record_entry,
    mark_cut,
    record_size,
    set_record_entry,
    set_record_words,
)
from scantling.piece.language import read_record_text
from scantling.piece.model import Axis

RECORD = "build: Bed, first one   # mine\nleft side rail: {deep: 80 3/8, cut: done}  # short\n"


def text(write):
    ((_, new),) = write.files
    return new


def test_a_record_is_begun_where_there_is_none():
    write = record_size("", "Bed: the first", "left foot post", Axis.WIDE, "2 11/16")
    assert text(write) == "build: 'Bed: the first'\nleft foot post: {wide: 2 11/16}\n"
    assert write.what == 'left foot post, wide: "2 11/16" is written in the record'
    assert read_record_text(text(write), "r.yaml").measured[0].sizes == ((Axis.WIDE, 2.6875 * 25.4),)


@pytest.mark.parametrize(
    ("part", "key", "words", "after"),
    [
        # source: by hand
        ("left side rail", "deep", "80 1/2", RECORD.replace("80 3/8", "80 1/2")),
        ("side rail left", "wide", "29 mm", RECORD.replace("cut: done", "cut: done, wide: 29 mm")),
        ("left foot post", "cut", "done", RECORD + "left foot post: {cut: done}\n"),
        ("left side rail", "note", "x, y", RECORD.replace("cut: done", "cut: done, note: 'x, y'")),
    ],
)
def test_one_entry_changes_and_all_else_stays(part, key, words, after):
    assert text(set_record_entry(RECORD, "Bed", part, key, words)) == after
    crlf = text(set_record_entry(RECORD.replace("\n", "\r\n"), "Bed", part, key, words))
    assert crlf == after.replace("\n", "\r\n")


def test_cut_and_other_words():
    assert text(mark_cut("", "Bed", "slat 1")) == "build: Bed\nslat 1: {cut: done}\n"
    assert text(set_record_words(RECORD, "Bed", ("units",), "mm")).endswith("\nunits: mm\n")


def test_words_the_record_does_not_know_are_refused():
    for key, words in (("wade", "2"), ("wide", "2 +"), ("cut", "nearly"), ("wide", " ")):
        with pytest.raises(ReadError):
            set_record_entry(RECORD, "Bed", "left side rail", key, words)
    with pytest.raises(ReadError, match="name of a part"):
        set_record_entry(RECORD, "Bed", " ", "wide", "2")


def test_an_entry_is_taken_out_and_the_part_with_its_last():
    once = text(clear_record_entry(RECORD, "rail side left", "deep"))
    assert once == RECORD.replace("deep: 80 3/8, ", "")
    assert text(clear_record_entry(once, "left side rail", "cut")) == "build: Bed, first one   # mine\n"
    with pytest.raises(ReadError):
        clear_record_entry(RECORD, "left side rail", "high")
