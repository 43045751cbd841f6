"""What must stay free to move is listed, or said to be nothing; never a heading with nothing under it."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO

from pypdf import PdfReader

from scantling.packet.data import packet_data
from scantling.packet.page import packet_page
from scantling.packet.pdf import packet_pdf
from scantling.quantity.kinds import LengthUnit

NOTHING = "Nothing in this piece must be left free to move."


def printed(data):
    pages = PdfReader(BytesIO(packet_pdf(data, "letter"))).pages
    return " ".join(" ".join(page.extract_text() for page in pages).split())


def test_slots_are_free_and_findings_stand_apart(bench_data):
    moves = bench_data["movement"]
    # source: by hand: the bench has one row of slotted screws and one finding of seasonal movement
    (free,) = moves["free"]
    assert free.startswith("Leave each wood screw")
    (told,) = moves["told"]
    assert told.startswith("The top grows 2.4")


def test_nothing_to_leave_free_is_said(bench):
    bare = replace(bench, machined=replace(bench.machined, hardware=()), findings=())
    data = packet_data(bare, LengthUnit.INCHES)
    assert data["movement"]["free"] == data["movement"]["told"] == []
    for words in (printed(data), packet_page(data).decode()):
        assert NOTHING in words
        assert "must stay free" not in words


def test_a_solid_panel_is_left_free_in_its_groove(bench, kit):
    parts = tuple(
        replace(part, part=replace(part.part, material=kit.CHERRY)) if part.name == "back panel" else part
        for part in bench.machined.parts
    )
    piece = replace(bench.piece, parts=tuple(part.part for part in parts))
    solid = replace(bench, piece=piece, machined=replace(bench.machined, piece=piece, parts=parts))
    assert any("back panel free in its grooves" in line for line in packet_data(solid)["movement"]["free"])
