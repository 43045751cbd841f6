"""Boards on the rack: shown, added, measured, marked and taken off."""

from __future__ import annotations

import pytest
from tests.desk.rack.conftest import HTMX
from tests.desk.rack.photo import sent

from scantling.shop import read_shop_text

WALNUT = "walnut, 4/4 rough, moisture 7 %"


def shop(folder):
    return read_shop_text((folder / "shop.yaml").read_text(encoding="utf-8"), "shop.yaml")


def board(folder, name):
    return next((b for b in shop(folder).boards if b.id == name), None)


def test_all_boards_are_drawn_to_one_scale(asking):
    page = asking.get("/rack").text
    assert page.count('class="board"') == 13
    assert 'aria-label="Board W2, 74 × 6 1/4 × 1 in; knot, 30 to 32 1/2 along, 2 to 4 across' in page
    # source: by hand; 48 of 97 in is 49.5 %
    assert 'width="49.5%"' in page


def test_a_folder_without_a_shop_offers_to_begin_one(bare, tmp_path):
    for address in ("/rack", "/rack/table/sheets", "/rack/text", "/rack/head"):
        assert "Begin the shop file" in bare.get(address).text
    assert bare.post("/rack/begin", data={"name": "Shed: north", "unit": "mm"}).headers["location"] == "/rack"
    assert shop(tmp_path).name == "Shed: north"
    assert bare.post("/rack/begin", data={"name": "Another", "unit": "mm"}).status_code == 422
    assert "No board is on the rack yet" in bare.get("/rack").text
    assert bare.post("/rack/undo", data={"number": "1"}).status_code == 303
    assert not (tmp_path / "shop.yaml").exists()


def test_a_broken_shop_is_shown_as_text_with_the_place(asking, folder):
    text = (folder / "shop.yaml").read_text(encoding="utf-8")
    (folder / "shop.yaml").write_text(text.replace("bow 5/8", "bow much"), encoding="utf-8")
    answer = asking.get("/rack")
    assert answer.status_code == 422
    line = text[: text.index("bow 5/8")].count("\n") + 1
    assert f"Line {line}, character" in answer.text
    assert f'data-line="{line}"' in answer.text


def add(asking, photo=None, **cells):
    files = {"photo": ("board.jpg", photo, "image/jpeg")} if photo else None
    return asking.post("/rack/boards/photo", data=cells, files=files, headers=HTMX)


def test_a_board_is_added_and_the_form_is_ready_for_the_next(asking, folder):
    answer = add(asking, stack=WALNUT, length="50 1/2", width="6", thickness="1", twist="1/8")
    assert answer.status_code == 200
    assert board(folder, "W13").length == pytest.approx(50.5 * 25.4)
    assert 'href="/rack/board?board=W13"' in answer.text
    assert 'data-next="W14"' in answer.text
    assert '"length"' in answer.headers["hx-trigger"]


def test_another_wood_begins_its_stack(asking, folder):
    cells = {"stack": "", "wood": "cherry", "nominal": "8/4", "surface": "rough"}
    add(asking, **cells, length="40", width="5", thickness="2")
    assert board(folder, "C1").species == "cherry"
    assert board(folder, "C1").nominal == "8/4"


def test_what_will_not_do_is_told_and_nothing_is_written(asking, folder):
    before = (folder / "shop.yaml").read_text(encoding="utf-8")
    answer = add(
        asking, stack="", wood="walnit", nominal="4/4", surface="rough", length="4", width="3", thickness="1"
    )
    assert answer.status_code == 422
    assert "no wood is called" in answer.text
    assert add(asking, stack=WALNUT, length="many", width="6", thickness="1").status_code == 422
    assert (folder / "shop.yaml").read_text(encoding="utf-8") == before


def test_a_board_comes_with_its_photo(asking):
    add(asking, sent(), stack=WALNUT, length="50", width="6", thickness="1")
    answer = asking.get("/rack/board/photo?board=W13")
    assert answer.headers["content-type"] == "image/jpeg"
    assert "with a photo" in asking.get("/rack").text


def test_a_photo_that_is_none_leaves_the_board(asking, folder):
    answer = add(asking, b"no picture", stack=WALNUT, length="50", width="6", thickness="1")
    assert "its photo is not" in answer.text
    assert board(folder, "W13")


def cell(asking, name, column, words, was):
    data = {"board": name, "column": column, "words": words, "was": was}
    return asking.post("/rack/board/cell", data=data, headers=HTMX)


def test_a_measure_is_said_anew(asking, folder):
    answer = cell(asking, "W2", "bow", "1/2", "5/8")
    assert answer.status_code == 200
    assert board(folder, "W2").warp.bow == pytest.approx(12.7)
    assert "1/2 in (12.7 mm)" in answer.text
    assert "Undo: W2: bow 1/2" in answer.text


def test_a_board_is_told_at_stations_and_drawn_so(asking, folder):
    answer = cell(asking, "W2", "stations", "24 gap 1/4; 48 gap -1/8", "")
    assert answer.status_code == 200
    assert [round(s.gap, 2) for s in board(folder, "W2").stations] == [6.35, -3.17]
    # source: by hand; 74 x 25.4 = 1879.6 long, drawn ten times as deep
    assert 'd="M0.0 0.0L609.6 63.5L1219.2 -31.8L1879.6 0.0"' in answer.text
    wrong = cell(asking, "W2", "stations", "24 gap", "24 gap 1/4; 48 gap -1/8")
    assert wrong.status_code == 422
    assert 'value="24 gap"' in wrong.text
    assert len(board(folder, "W2").stations) == 2


def test_wrong_words_stay_in_their_field_with_the_reason(asking, folder):
    answer = cell(asking, "W2", "bow", "a lot", "5/8")
    assert answer.status_code == 422
    assert 'value="a lot"' in answer.text
    assert "is not a number" in answer.text
    assert board(folder, "W2").warp.bow == pytest.approx(15.875)


def test_words_changed_elsewhere_are_not_written_over(asking, folder):
    cell(asking, "W2", "bow", "1/2", "5/8")
    answer = cell(asking, "W2", "bow", "3/8", "5/8")
    assert answer.status_code == 422
    assert "says “1/2” here by now" in answer.text
    assert board(folder, "W2").warp.bow == pytest.approx(12.7)


def test_a_renamed_board_keeps_its_photo(asking, folder):
    asking.post("/rack/board/photo?board=W2", files={"photo": ("b.jpg", sent(), "image/jpeg")})
    answer = cell(asking, "W2", "board", "Long one", "W2")
    assert answer.headers["hx-redirect"] == "/rack/board?board=Long%20one"
    assert asking.get("/rack/board/photo?board=Long one").status_code == 200
    assert asking.get("/rack/board?board=Long one").status_code == 200
    assert asking.get("/rack/board?board=W2").status_code == 404


def draw(asking, name, **values):
    data = {"board": name, "number": "", "was": "", "kind": "knot", "face": "both", **values}
    return asking.post("/rack/board/defect", data=data, headers=HTMX)


def test_a_drawn_defect_is_written_and_shown(asking, folder):
    values = {"from": "508.20 mm", "to": "558.70 mm", "near": "50.80 mm", "far": "76.20 mm"}
    answer = draw(asking, "W1", **values, face="best")
    # source: by hand; 508.2 mm = 20.008 in -> 20, 558.7 mm = 21.996 in -> 22
    assert "knot 20 to 22 x 2 to 3 on best" in (folder / "shop.yaml").read_text(encoding="utf-8")
    assert 'data-number="1"' in answer.text
    assert 'value="22"' in answer.text


def test_a_dot_is_drawn_no_smaller_than_4_mm(asking, folder):
    draw(asking, "W1", **{"from": "500 mm", "to": "500 mm", "near": "50 mm", "far": "50 mm"})
    found = board(folder, "W1").defects[0]
    assert found.to_end - found.from_end >= 3.1
    assert found.to_edge - found.from_edge >= 3.1


def test_a_defect_is_changed_in_words_and_taken_out(asking, folder):
    was = "knot 30 to 32 1/2 x 2 to 4"
    values = {"number": "1", "was": was, "from": "29", "to": "end", "near": "1", "far": "edge"}
    draw(asking, "W2", **values, kind="split")
    assert "split 29 to end x 1 to edge" in (folder / "shop.yaml").read_text(encoding="utf-8")
    again = draw(asking, "W2", number="1", was="split 29 to end x 1 to edge", away="1")
    assert "None is marked" in again.text
    assert board(folder, "W2").defects == ()


@pytest.mark.parametrize(
    "values",
    [
        {"from": "30", "to": "900", "near": "1", "far": "2"},
        {"from": "", "to": "3", "near": "1", "far": "2"},
        {"from": "1", "to": "3", "near": "1", "far": "2", "kind": "scratch"},
        {"from": "1", "to": "3", "near": "1", "far": "2", "number": "1", "was": "knot 1 to 2 x 3 to 4"},
    ],
)
def test_a_defect_that_cannot_be_is_refused(asking, folder, values):
    before = (folder / "shop.yaml").read_text(encoding="utf-8")
    assert draw(asking, "W2", **values).status_code == 422
    assert (folder / "shop.yaml").read_text(encoding="utf-8") == before


def test_a_board_is_taken_off_and_put_back(asking, folder):
    asking.post("/rack/board/away", data={"board": "Y1"}, headers=HTMX)
    assert board(folder, "Y1") is None
    page = asking.get("/rack").text
    number = page.split('action="/rack/undo"><input type="hidden" name="number" value="')[1].split('"')[0]
    answer = asking.post(
        "/rack/undo", data={"number": number}, headers={"referer": "http://testserver/rack/head"}
    )
    assert answer.headers["location"] == "/rack/head"
    assert board(folder, "Y1")
    assert "Redo: Y1 taken off the rack" in asking.get("/rack").text


def test_corners_are_kept_and_the_board_straightened(asking):
    asking.post("/rack/board/photo?board=W2", files={"photo": ("b.jpg", sent(), "image/jpeg")}, headers=HTMX)
    assert asking.get("/rack/board/straight?board=W2").status_code == 404
    words = {"corners": "0.1 0.2 0.9 0.2 0.9 0.8 0.1 0.8"}
    answer = asking.post("/rack/board/corners?board=W2", data=words, headers=HTMX)
    assert answer.headers["hx-redirect"] == "/rack/board?board=W2"
    assert asking.get("/rack/board/straight?board=W2").headers["content-type"] == "image/jpeg"
    assert "/rack/board/straight?board=W2&amp;v=" in asking.get("/rack/board?board=W2").text
    crossed = {"corners": "0.1 0.2 0.9 0.8 0.9 0.2 0.1 0.8"}
    assert asking.post("/rack/board/corners?board=W2", data=crossed, headers=HTMX).status_code == 422
    assert (
        asking.post("/rack/board/corners?board=W2", data={"corners": "1 2"}, headers=HTMX).status_code == 422
    )
    asking.post("/rack/board/photo/away?board=W2", headers=HTMX)
    assert asking.get("/rack/board/photo?board=W2").status_code == 404


def test_a_photo_of_no_board_is_not_kept(asking):
    photo = {"photo": ("b.jpg", sent(), "image/jpeg")}
    assert asking.post("/rack/board/photo?board=Q9", files=photo, headers=HTMX).status_code == 422
    assert asking.post("/rack/board/photo?board=W2", headers=HTMX).status_code == 422


def test_names_of_boards_are_only_words(asking):
    add(asking, stack=WALNUT, board='<img src=x onerror="a()"> 3/4', length="50", width="6", thickness="1")
    page = asking.get("/rack").text
    assert "<img src=x" not in page
    assert asking.get("/rack/board", params={"board": '<img src=x onerror="a()"> 3/4'}).status_code == 200


NONSENSE = [
    ("/rack/board/cell", {"board": "W2", "column": "colour", "words": "red", "was": ""}, 400),
    ("/rack/board/cell", {}, 400),
    ("/rack/board/cell", {"board": "Q1", "column": "bow", "words": "1", "was": ""}, 422),
    ("/rack/board/defect", {"board": "W2", "number": "x", "was": "", "kind": "knot"}, 422),
    ("/rack/board/defect", {"board": "W2", "number": "-1", "away": "1", "was": ""}, 422),
    ("/rack/board/defect", {"board": "Q1", "from": "1", "to": "2", "near": "1", "far": "2"}, 422),
    ("/rack/board/away", {"board": "Q1"}, 422),
    ("/rack/table/clamps/cell", {"path": '["hardware", "x"]', "column": "count"}, 400),
    ("/rack/table/clamps/cell", {"path": "not json", "column": "count"}, 400),
    ("/rack/table/clamps/cell", {"path": "3", "column": "count"}, 400),
    ("/rack/table/clamps/cell", {"path": '["clamps", 4]', "column": "count"}, 400),
    ("/rack/table/clamps/cell", {"path": '["clamps", "bar clamp"]', "column": "x"}, 400),
    ("/rack/table/clamps/away", {"path": '["clamps", "no clamp"]'}, 422),
    ("/rack/table/clamps/row", {}, 422),
    ("/rack/table/clamps/paste", {}, 200),
    ("/rack/table/clamps/pasted", {}, 200),
    ("/rack/undo", {"number": "٣"}, 409),
    ("/rack/head", {}, 422),
    ("/rack/air", {}, 422),
    ("/rack/text", {}, 422),
    ("/rack/board/corners?board=Q1", {"corners": "a b c d e f g h"}, 422),
]


@pytest.mark.parametrize(("address", "data", "status"), NONSENSE)
def test_nonsense_changes_nothing(asking, folder, address, data, status):
    before = (folder / "shop.yaml").read_text(encoding="utf-8")
    assert asking.post(address, data=data, headers=HTMX).status_code == status
    assert (folder / "shop.yaml").read_text(encoding="utf-8") == before


def test_a_face_that_is_none_is_refused(asking):
    values = {"from": "1", "to": "2", "near": "1", "far": "2"}
    assert draw(asking, "W2", **values, face="inside").status_code == 422
