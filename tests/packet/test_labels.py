"""Sheets of labels: one a part, on the grid that was asked for, readable and tagged."""

from __future__ import annotations

import re
from dataclasses import replace
from io import BytesIO

import pypdf
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.packet.label_grids import A4, GRIDS, Grid
from scantling.packet.labels import code, labels_data
from scantling.packet.pdf import labels_pdf
from scantling.quantity.kinds import LengthUnit

PLAIN = GRIDS["letter plain"]
HOSTILE = "</script><img src=x onerror=alert(1)> #panic() $x$ @ref `<lab>`"


def words_of(pdf):
    text = " ".join(page.extract_text() for page in pypdf.PdfReader(BytesIO(pdf)).pages)
    return re.sub(r"\s+", " ", text.replace("⁄", "/"))


def labels_of(plan, grid=PLAIN, **more):
    return [label for sheet in labels_data(plan, grid, **more)["sheets"] for label in sheet]


@pytest.mark.parametrize("name", GRIDS)
def test_usual_sheets_hold_their_labels(name):
    grid = GRIDS[name]
    assert grid.trouble() == ""
    corners = [grid.corner(index) for index in range(grid.count)]
    assert len(set(corners)) == grid.across * grid.down
    assert grid.corner(grid.count) == corners[0]


@given(
    st.integers(1, 6),
    st.integers(1, 12),
    st.floats(10, 250),
    st.floats(10, 300),
    st.floats(0, 40),
    st.floats(0, 10),
)
def test_a_grid_without_trouble_stays_on_the_paper(across, down, wide, high, edge, gap):
    grid = Grid(A4, across, down, (wide, high), (edge, edge), (gap, gap))
    left, top = grid.corner(grid.count - 1)
    on_paper = left + wide <= A4[0] + 0.1 and top + high <= A4[1] + 0.1
    assert (grid.trouble() == "") == (on_paper and wide >= 38 and high >= 20)


def test_every_part_has_one_label_in_the_order_of_its_number(bench):
    labels = labels_of(bench)
    assert sorted(label["name"] for label in labels) == sorted(p.name for p in bench.piece.parts)
    assert [label["mark"] for label in labels] == ["1", "2L", "2R", "3", "4", "5", "6", "6"]


def test_a_label_says_size_stock_and_what_to_cut(bench):
    """Front rail 3/4 x 2 1/2 x 32 1/2 with 3/8 tenons both ends, from board C2 (`bench_plan.py`)."""
    rail = next(label for label in labels_of(bench) if label["name"] == "front rail")
    assert rail["size"].replace("\u00a0", " ") == "3/4 × 2 1/2 × 32 1/2 in"
    assert rail["cut"].replace("\u00a0", " ") == "cut 33 1/4 long"
    assert rail["stock"] == "board C2"
    by_name = {label["name"]: label["stock"] for label in labels_of(bench)}
    assert by_name["back panel"] == "sheet P1"
    assert by_name["shelf"] == ""


def test_millimetres_when_the_plan_is_in_them(bench):
    metric = replace(bench, shop=replace(bench.shop, unit=LengthUnit.MM))
    top = labels_of(metric, units=LengthUnit.MM)[0]
    thick, *rest = top["size"].replace("\u00a0", " ").split(" × ")
    assert float(thick) == pytest.approx(19.05, abs=0.06)  # source: exact, 3/4 x 12 x 36 in
    assert rest == ["304.8", "914.4 mm"]


def test_a_half_used_sheet_is_used_up(bench):
    data = labels_data(bench, GRIDS["a4 2 by 7"], start=13)
    first, second = data["sheets"]
    assert [label["at"] for label in first] == [
        list(GRIDS["a4 2 by 7"].corner(12)),
        list(GRIDS["a4 2 by 7"].corner(13)),
    ]
    assert len(second) == len(bench.piece.parts) - 2


def test_seen_parts_are_filled_and_hidden_ones_dashed(bench):
    spots = {label["name"]: label["spot"] for label in labels_of(bench)}
    assert 'fill="#3a3a3a"' in spots["top"]
    hidden = [name for name, svg in spots.items() if "stroke-dasharray" in svg]
    assert "top" not in hidden
    assert all("<path" in svg for svg in spots.values())


def test_the_code_is_square_and_tells_parts_apart():
    small, large = code("1 top"), code("1 top" * 20)
    size = re.search(r'viewBox="0 0 (\d+) (\d+)"', small)
    assert size
    assert size.group(1) == size.group(2)
    # 21 modules and 17 + 4 a version, 4 of quiet zone a side. source: ISO/IEC 18004, from memory
    assert (int(size.group(1)) - 8 - 17) % 4 == 0
    assert small != large


def test_print_is_searchable_tagged_and_of_the_paper(bench):
    pdf = labels_pdf(labels_data(bench, GRIDS["a4 3 by 8"]))
    reader = pypdf.PdfReader(BytesIO(pdf))
    assert len(reader.pages) == 1
    width, height = (float(v) / 72 * 25.4 for v in reader.pages[0].mediabox[2:])
    assert (width, height) == pytest.approx((210, 297), abs=0.1)  # source: from memory, ISO 216
    assert reader.trailer["/Root"]["/MarkInfo"]["/Marked"]
    words = words_of(pdf)
    for part in bench.piece.parts:
        assert part.name in words
    assert "from board C1" in words


def test_same_data_same_bytes_and_small(bench):
    data = labels_data(bench, PLAIN)
    assert labels_pdf(data) == labels_pdf(data)
    assert len(labels_pdf(data)) < 300_000


def test_hostile_and_endless_names_stay_text_on_their_label(make_plan):
    words = words_of(labels_pdf(labels_data(make_plan(HOSTILE, HOSTILE), PLAIN)))
    assert "#panic() $x$ @ref" in words
    assert (
        len(pypdf.PdfReader(BytesIO(labels_pdf(labels_data(make_plan("W" * 300, "W" * 300), PLAIN)))).pages)
        == 1
    )
    assert labels_pdf(labels_data(make_plan("Bench 椅子", "top \u202e"), PLAIN))
