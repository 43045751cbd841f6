"""The wood plan: what is shown, what a wish writes and changes, and the way back."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from scantling.desk.wood.wishes import Wish, wished
from scantling.errors import ReadError
from scantling.piece import read_record_text

AT = "/piece/sewing-desk/wood"
RECORD = "sewing-desk.build.yaml"


def planned(asking: TestClient) -> str:
    """The page once its plan is there."""
    asking.get(f"{AT}/now")
    return asking.get(AT).text


def wish(asking: TestClient, **said: str) -> str:
    return asking.post(f"{AT}/wish", data=said).text


def undo(asking: TestClient) -> str:
    return asking.post(f"{AT}/undo", data={"number": ""}).text


def test_every_board_of_the_plan_is_drawn_with_its_cuts(asking: TestClient) -> None:
    page = planned(asking)
    boards = re.findall(r"<h3>(Board W\d+|Sheet P\d)", page)
    assert len(boards) >= 8
    assert page.count("<svg") == len(boards)
    assert "Lost to warp" in page
    assert "Cannot be less than" in page


def test_a_part_wanted_from_a_board_is_cut_from_it(asking: TestClient, folder: Path) -> None:
    answer = wish(asking, act="from", part="tray back", board="W2")
    record = read_record_text((folder / RECORD).read_text(encoding="utf-8"), RECORD)
    assert record.measured[0].stock == ("W2",)
    line = re.search(r"tray back</b> <span class=\"quiet\">([^<]*)<", answer)
    assert line is not None
    assert "W2" in line[1]
    undo(asking)
    assert not (folder / RECORD).exists()


def test_a_board_left_alone_is_not_cut_and_its_price_is_told(asking: TestClient) -> None:
    answer = wish(asking, act="leave", board="W6")
    assert "Board W6" not in answer
    assert "left alone, as you said" in answer
    assert "more is spent" in answer
    back = wish(asking, act="take", board="W6")
    assert "Board W6" in back
    assert "less is spent" in back


def test_a_wish_that_cannot_be_followed_is_told(asking: TestClient) -> None:
    answer = wish(asking, act="from", part="fixed top", board="W11")
    assert "A wish could not be followed" in answer
    assert "fixed top" in answer
    undo(asking)


def test_nonsense_is_told_and_writes_nothing(asking: TestClient, folder: Path) -> None:
    before = (folder / RECORD).read_bytes() if (folder / RECORD).exists() else b""
    assert 'id="plan"' not in wish(asking, act="from", part="no such part", board="W1")
    assert 'class="trouble"' in wish(asking, act="burn", board="W1")
    assert 'class="trouble"' in wish(asking, act="take", board="W1")
    after = (folder / RECORD).read_bytes() if (folder / RECORD).exists() else b""
    assert before == after


def test_routes_stand_side_by_side(asking: TestClient) -> None:
    page = asking.get(f"{AT}/routes").text
    for name in ("mixture as planned", "what is on hand", "bought rough", "bought surfaced"):
        assert name in page


def test_a_page_that_is_up_to_date_is_told_nothing(asking: TestClient) -> None:
    have = re.search(r"now\?have=([0-9a-f]+)", planned(asking))
    assert have is not None
    assert asking.get(f"{AT}/now", params={"have": have[1]}).status_code == 204
    assert asking.get(f"{AT}/now", params={"have": "older"}).status_code == 200


@pytest.mark.parametrize(
    "said",
    [Wish("from", "lid lip", "W3"), Wish("leave", board="P3#2"), Wish("grain", "lid lip", grain="may turn")],
)
def test_a_wish_reads_back(said: Wish) -> None:
    ((file, text),) = wished(None, "A desk: mine", "x.build.yaml", said).files
    record = read_record_text(text, file)
    assert record.name == "A desk: mine"
    assert len(record.measured) + len(record.stock) == 1


def test_an_unknown_wish_is_refused() -> None:
    with pytest.raises(ReadError):
        wished(None, "A desk", "x.build.yaml", Wish("burn"))
