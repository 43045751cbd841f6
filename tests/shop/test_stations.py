"""Boards told at stations, read from their line."""

from __future__ import annotations

import pytest

from scantling.errors import ReadError
from scantling.shop.model import Station
from scantling.shop.stations import profile_of


def _board(shop_of, said: str):
    return shop_of(f"boards:\n  walnut, 4/4 rough:\n    W1: 96 x 8 x 1, {said}\n").boards[0]


def test_stations_of_a_line(shop_of) -> None:
    board = _board(
        shop_of, "cup 1/8, stations 24 gap 1/4 cup 1/16; 48 gap -1/8 twist -1/16; end gap 0 twist 1/2"
    )
    # source: by hand, 25.4 mm an inch
    assert board.stations == (
        Station(pytest.approx(609.6), pytest.approx(6.35), pytest.approx(1.5875)),
        Station(pytest.approx(1219.2), pytest.approx(-3.175), None, pytest.approx(-1.5875)),
        Station(pytest.approx(2438.4), 0.0, None, pytest.approx(12.7)),
    )


def test_what_is_not_told_at_a_station_is_read_between_those_that_tell_it(shop_of) -> None:
    told = profile_of(_board(shop_of, "stations 24 gap 1/4; 48 gap 0 cup 1/8; 72 gap 0; end gap 0 twist 1/2"))
    # source: by hand; a twist of 12.7 mm on 203.2 mm is 1/16 rad, a quarter of it at a quarter of the length
    assert [s.at for s in told] == pytest.approx([0, 609.6, 1219.2, 1828.8, 2438.4])
    assert [s.gap for s in told] == pytest.approx([0, 6.35, 0, 0, 0])
    assert [s.cup for s in told] == pytest.approx([3.175] * 5)
    assert [s.twist for s in told] == pytest.approx([0, 1 / 64, 2 / 64, 3 / 64, 4 / 64])


def test_cup_and_twist_told_nowhere_are_those_of_the_whole_board(shop_of) -> None:
    told = profile_of(_board(shop_of, "cup 1/8, twist 1/4, stations 24 gap 1/4; 72 gap 0"))
    assert [s.cup for s in told] == pytest.approx([3.175] * 4)
    assert [s.twist for s in told] == pytest.approx([0, 1 / 128, 3 / 128, 4 / 128])


def test_a_board_without_stations_has_no_profile(shop_of) -> None:
    assert profile_of(_board(shop_of, "bow 1/4")) == ()


@pytest.mark.parametrize(
    ("said", "wrong", "what"),
    [
        ("stations 24 gap 1/4, 48 gap 0", "48 gap 0", "semicolons, not commas"),
        ("stations 24 gap 1/4; 12 gap 0", "12 gap 0", "from the chalked end"),
        ("stations 24 cup 1/4", "24 cup 1/4", "the gap there"),
        ("stations 24", "24", "the gap there"),
        ("stations 24 gap 1/4;; 48 gap 0", "; 48", "says nothing"),
        ("stations 24 gap 1/4 gap 1/8", "gap 1/8", "twice"),
        ("stations 24 gap lots", "lots", "lots"),
        ("stations 24 gap 25", "25", "no board has a gap like this"),
        ("stations 124 gap 1/4", "124", "beyond the board"),
        ("stations 24 gap 1/4 twist 1/8", "24 gap", "the far end too"),
    ],
)
def test_what_will_not_do_is_told_where_it_stands(shop_of, said, wrong, what) -> None:
    with pytest.raises(ReadError) as told:
        _board(shop_of, said)
    assert what in str(told.value)
    line = f"    W1: 96 x 8 x 1, {said}"
    assert told.value.place.character == line.index(wrong) + 1


def test_stations_over_several_lines(shop_of) -> None:
    said = (
        "boards:\n  walnut:\n    W1:\n      size: 96 x 8 x 1\n"
        "      stations: 24 gap 1/4;\n        48 gap 1/8\n"
    )
    (board,) = shop_of(said).boards
    assert [s.at for s in board.stations] == pytest.approx([609.6, 1219.2])
    with pytest.raises(ReadError, match="semicolons"):
        shop_of(said.replace(";", ","))
