"""Tables: cells, lines and pasting; the head; the file as text."""

from __future__ import annotations

import json

import pytest
from tests.desk.rack.conftest import HTMX
from tests.desk.rack.test_boards import shop


def text(folder) -> str:
    return (folder / "shop.yaml").read_text(encoding="utf-8")


def cell(asking, section, path, column, words, was):
    data = {"path": json.dumps(path), "column": column, "words": words, "was": was}
    return asking.post(f"/rack/table/{section}/cell", data=data, headers=HTMX)


@pytest.mark.parametrize(
    "section", ["boards", "sheets", "lumber", "for-sale", "machines", "clamps", "hardware", "supplies"]
)
def test_each_section_has_its_table(asking, section):
    assert asking.get(f"/rack/table/{section}").status_code == 200
    assert asking.get(f"/rack/table/{section}?all=1").status_code == 200


def test_there_is_no_other_table(asking):
    assert asking.get("/rack/table/shoes").status_code == 404


def test_a_cell_is_kept_at_once(asking, folder):
    answer = cell(asking, "clamps", ["clamps", "bar clamp"], "count", "9", "8")
    assert answer.status_code == 200
    assert "bar clamp: 9, opens 24" in text(folder)
    assert 'hx-target="#row-1"' in answer.text
    assert "Undo: bar clamp: how many 9" in answer.text


def test_a_fault_is_told_at_its_cell(asking, folder):
    before = text(folder)
    answer = cell(asking, "clamps", ["clamps", "bar clamp"], "opens", "wide", "24")
    assert answer.status_code == 422
    assert 'value="wide"' in answer.text
    assert 'aria-invalid="true"' in answer.text
    assert text(folder) == before
    gone = cell(asking, "clamps", ["clamps", "no clamp"], "opens", "3", "24")
    assert "not in the shop file any more" in gone.text


def test_a_renamed_line_gives_the_whole_table(asking):
    answer = cell(asking, "clamps", ["clamps", "bar clamp"], "clamp", "small bar clamp", "bar clamp")
    assert 'hx-target="#listing"' in answer.text


def test_a_line_is_added_and_taken_out(asking, folder):
    data = {"machine": "lathe", "longest": "36"}
    answer = asking.post("/rack/table/machines/row", data=data, headers=HTMX)
    assert "lathe: longest 36" in text(folder)
    assert '"machine"' in answer.headers["hx-trigger"]
    path = {"path": json.dumps(["machines", "lathe"])}
    asking.post("/rack/table/machines/away", data=path, headers=HTMX)
    assert "lathe" not in text(folder)
    assert asking.post("/rack/table/machines/row", data={"machine": "anvil"}, headers=HTMX).status_code == 422


def test_pasted_cells_are_looked_over_first(asking, folder):
    before = text(folder)
    cells = "clamp;count;opens\nbar clamp;10;24\ncam clamp;many;12\n"
    answer = asking.post("/rack/table/clamps/paste", data={"pasted": cells}, headers=HTMX)
    assert "1 thing to mend" in answer.text
    assert "▲ count: &#34;many&#34; is not a whole number" in answer.text
    assert "Write" not in answer.text
    refused = asking.post("/rack/table/clamps/pasted", data={"pasted": cells}, headers=HTMX)
    assert "1 thing to mend" in refused.text
    assert text(folder) == before


def test_pasted_cells_without_fault_are_written_in_one_step(asking, folder):
    before = text(folder)
    cells = "clamp;count;opens\nbar clamp;10;24\ncam clamp;4;12\n"
    looked = asking.post("/rack/table/clamps/paste", data={"pasted": cells}, headers=HTMX).text
    assert "No faults: 1 new, 1 there already" in looked
    assert text(folder) == before
    asking.post("/rack/table/clamps/pasted", data={"pasted": cells}, headers=HTMX)
    assert [clamp.count for clamp in shop(folder).clamps if clamp.kind in ("bar clamp", "cam clamp")] == [
        10,
        4,
    ]
    page = asking.get("/rack").text
    number = page.split('name="number" value="')[1].split('"')[0]
    asking.post("/rack/undo", data={"number": number})
    assert text(folder) == before


def test_the_head_is_said_line_by_line(asking, folder):
    data = {"key": "hours a week", "words": "5", "was": "8"}
    assert asking.post("/rack/head", data=data, headers=HTMX).status_code == 200
    assert shop(folder).hours_a_week == 5
    wrong = asking.post("/rack/head", data={"key": "fraction", "words": "1/7", "was": "1/32"}, headers=HTMX)
    assert wrong.status_code == 422
    assert "is not a fraction" in wrong.text
    assert asking.post("/rack/head", data={"key": "units", "words": "mm"}, headers=HTMX).status_code == 422


def test_the_air_is_said_in_one(asking, folder):
    was = {"was dry": "38 %", "was damp": "45 %", "was at": "66 F"}
    asking.post("/rack/air", data={"dry": "30 %", "damp": "60 %", "at": "18 C", **was}, headers=HTMX)
    assert shop(folder).climate.damp == 0.6
    wrong = asking.post("/rack/air", data={"dry": "30 %", "damp": "60 %", "at": "18 C", **was}, headers=HTMX)
    assert wrong.status_code == 422


def test_the_file_as_text_is_kept_only_if_it_reads(asking, folder):
    before = text(folder)
    digest = asking.get("/rack/stamp").text
    wrong = asking.post("/rack/text", data={"text": before.replace("bow 5/8", "bow 5/x"), "digest": digest})
    assert wrong.status_code == 422
    assert "Nothing was written" in wrong.text
    assert "bow 5/x" in wrong.text
    assert text(folder) == before
    typed = before.replace("bow 5/8", "bow 1/2").replace("\n", "\r\n")
    assert asking.post("/rack/text", data={"text": typed, "digest": digest}).status_code == 303
    assert text(folder) == before.replace("bow 5/8", "bow 1/2")
    late = asking.post("/rack/text", data={"text": before, "digest": digest})
    assert late.status_code == 422
    assert "was changed elsewhere" in late.text


def test_a_page_can_see_that_it_is_old(asking, folder):
    digest = asking.get("/rack/stamp").text
    assert f'data-digest="{digest}"' in asking.get("/rack").text
    (folder / "shop.yaml").write_text(text(folder) + "# more\n", encoding="utf-8")
    assert asking.get("/rack/stamp").text != digest


def test_a_step_is_not_taken_over_a_later_change(asking, folder):
    cell(asking, "clamps", ["clamps", "bar clamp"], "count", "9", "8")
    number = asking.get("/rack").text.split('name="number" value="')[1].split('"')[0]
    (folder / "shop.yaml").write_text(text(folder) + "# more\n", encoding="utf-8")
    answer = asking.post("/rack/undo", data={"number": number})
    assert answer.status_code == 409
    assert text(folder).endswith("# more\n")
    assert asking.post("/rack/undo", data={"number": "999"}).status_code == 409


def test_undo_leads_back_to_the_rack_only(asking):
    cell(asking, "clamps", ["clamps", "bar clamp"], "count", "9", "8")
    number = asking.get("/rack").text.split('name="number" value="')[1].split('"')[0]
    answer = asking.post("/rack/undo", data={"number": number}, headers={"referer": "http://evil.example/x"})
    assert answer.headers["location"] == "/rack"


def test_a_file_broken_meanwhile_is_told_where_the_maker_is(asking, folder):
    (folder / "shop.yaml").write_text(text(folder).replace("bow 5/8", "bow much"), encoding="utf-8")
    answer = cell(asking, "clamps", ["clamps", "bar clamp"], "count", "9", "8")
    assert answer.status_code == 422
    assert 'hx-target="#told"' in answer.text
    assert "is not a number" in answer.text
    (folder / "shop.yaml").unlink()
    assert "no shop file" in cell(asking, "clamps", ["clamps", "bar clamp"], "count", "9", "8").text


@pytest.mark.parametrize("act", ["paste", "pasted"])
def test_more_than_is_looked_at_in_one_go_is_told_not_cut(asking, folder, act):
    before = text(folder)
    cells = "bar clamp\t8\t24\n" * 20_000
    answer = asking.post(f"/rack/table/clamps/{act}", data={"pasted": cells}, headers=HTMX)
    assert answer.status_code == 422
    assert "paste fewer lines at a time" in answer.text
    assert text(folder) == before
