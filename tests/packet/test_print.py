"""The PDF as a reader gets it: text, pages, tags, hostile words, the same bytes."""

from __future__ import annotations

import re
from dataclasses import replace
from io import BytesIO

import pypdf
import pytest

from scantling.building.build_plan import BuildPlan, Cost
from scantling.cutting.cut_plan import Areas, CutPlan
from scantling.packet.data import packet_data
from scantling.packet.glyphs import Legible, known_characters
from scantling.packet.pdf import packet_pdf

HOSTILE = "</script><img src=x onerror=alert(1)> #panic() $x$ @ref `<lab>`"


def words_of(pdf):
    """All text with plain spaces and slashes."""
    text = " ".join(page.extract_text() for page in pypdf.PdfReader(BytesIO(pdf)).pages)
    return re.sub(r"\s+", " ", text.replace("⁄", "/"))


@pytest.fixture(scope="module")
def words(bench_pdf):
    return words_of(bench_pdf)


def test_every_section_is_there(words):
    for title in (
        "Sizes and choices",
        "Findings",
        "Parts list",
        "Shopping list",
        "Cut plan",
        "Part sheets",
        "Safety",
    ):
        assert title in words


def test_sizes_parts_and_steps_are_found_by_search(words, bench):
    assert "36 in (914.4 mm) wide" in words
    assert "33 1/4 overall" in words
    for step in bench.build_plan.steps:
        assert step.title in words
    for name in ("top", "side", "shelf", "front rail", "back panel", "cleat"):
        assert name in words


def test_findings_carry_number_limit_source_and_remedy(words):
    assert "40 N; limit 60 N" in words
    assert "Wood Handbook ch. 9, Eq. (9-2)" in words
    assert "Make it 13 in deep." in words
    assert "MUST FIX" in words


def test_settled_size_says_why(words):
    assert "least height at which the boot clearance passes" in words


def test_caution_comes_before_its_step(words):
    assert words.index("Clamp the jig and the work before you drill.") < words.index("Fit the top")


def test_oily_rags_are_on_the_safety_page(words):
    assert "set fire to themselves" in words


def test_pages_are_numbered_and_sized(bench_pdf):
    reader = pypdf.PdfReader(BytesIO(bench_pdf))
    count = len(reader.pages)
    assert 12 < count < 40
    assert f"Page {count} of {count}" in reader.pages[-1].extract_text()
    width, height = (float(v) / 72 for v in reader.pages[0].mediabox[2:])
    assert (width, height) == pytest.approx((8.5, 11))  # source: from memory, ASME Y14.1 size A


def test_a4_page_size(bench_data):
    page = pypdf.PdfReader(BytesIO(packet_pdf(bench_data, "a4"))).pages[0]
    width, height = (float(v) / 72 * 25.4 for v in page.mediabox[2:])
    assert (width, height) == pytest.approx((210, 297), abs=0.1)  # source: from memory, ISO 216


def test_tagged_for_screen_readers_with_bookmarks(bench_pdf):
    reader = pypdf.PdfReader(BytesIO(bench_pdf))
    assert reader.trailer["/Root"]["/MarkInfo"]["/Marked"]
    assert len(reader.outline) > 8
    assert reader.trailer["/Root"]["/Lang"] == "en"


def test_same_data_same_bytes(bench_data, bench_pdf):
    assert packet_pdf(bench_data, "letter") == bench_pdf


def test_small(bench_pdf):
    assert len(bench_pdf) < 1_500_000  # source: desk-and-packet.md section 4


def test_metric_packet_leads_with_mm(bench_data_mm):
    words = words_of(packet_pdf(bench_data_mm, "a4"))
    assert "914.4 mm (36 in) wide" in words
    assert "825.5 between shoulders, 844.5 overall" in words or "844.6 overall" in words


def test_hostile_names_stay_text(make_plan):
    words = words_of(packet_pdf(packet_data(make_plan(HOSTILE, HOSTILE)), "letter"))
    assert "#panic() $x$ @ref" in words
    assert "onerror=alert(1)" in words


def test_characters_the_face_lacks_are_shown_and_named(make_plan):
    words = words_of(packet_pdf(packet_data(make_plan("Bench 椅子 \u0007\u202e🪑", "top שלום")), "letter"))
    assert "Bench □□" in words
    assert "Characters not shown." in words
    assert "top □□□□" in words


def test_legible_keeps_what_the_face_has():
    legible = Legible()
    assert legible.text("½ ⅜ ″ × ± ≤ → ✓ ☐ Žluťoučký Ø") == "½ ⅜ ″ × ± ≤ → ✓ ☐ Žluťoučký Ø"
    assert legible.changed == []
    assert legible.text("a\u0000b") == "ab"
    assert ord("A") in known_characters()


def test_scales_are_true_on_paper(bench_data):
    """The main view of the top is drawn to the scale that is printed beside it."""
    sheet = next(s for s in bench_data["sheets"] if s["name"] == "top")
    scale = float(re.search(r"Scale 1:([\d.]+)", sheet["scale"]).group(1))
    widest = max(
        abs(float(b) - float(a)) for a, b in re.findall(r"M([\d.]+) [\d.]+L([\d.]+) [\d.]+", sheet["svg"])
    )
    assert widest == pytest.approx(36 * 25.4 / scale, abs=0.1)  # source: exact; 36 in at that scale


def test_a_word_too_long_for_a_column_is_broken(make_plan):
    def hear(text, cm, tm, font, size):
        if text.strip():
            starts.append(tm[4] * cm[0] + cm[4])

    starts: list[float] = []
    reader = pypdf.PdfReader(BytesIO(packet_pdf(packet_data(make_plan("W" * 120, "W" * 120)), "letter")))
    for page in reader.pages:
        page.extract_text(visitor_text=hear)
    assert max(starts) < 8.5 * 72  # source: from memory, ASME Y14.1; no run of text starts beyond the sheet
    legible = Legible()
    assert legible.text("W" * 31).replace("\u200b", "") == "W" * 31
    assert legible.text("counterbored yellow-poplar") == "counterbored yellow-poplar"


def test_a_plan_with_nothing_to_cut_or_build_is_still_set(bench):
    bare = replace(
        bench,
        findings=(),
        settled=(),
        cut_plan=CutPlan((), (), (), (), Areas(0, 0, 0, 0, 0), 0, 0, 0),
        build_plan=BuildPlan((), (), Cost(0, 0, 0, 0, 0, ""), 0, 0),
    )
    words = words_of(packet_pdf(packet_data(bare), "a4"))
    assert "Every check passes" in words
    assert "Ready to build." in words
