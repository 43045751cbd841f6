"""The packet's words and one drawing, kept as they were when they were last looked at."""

from __future__ import annotations

import json
from io import BytesIO

import pypdf
import pytest

from scantling.packet.data import packet_data
from scantling.packet.pdf import packet_pdf


@pytest.fixture(scope="module")
def data(golden_bench):
    return packet_data(golden_bench)


def wordless(value):
    """Without drawings."""
    if isinstance(value, list):
        return [wordless(item) for item in value]
    if isinstance(value, dict):
        return {key: wordless(item) for key, item in value.items() if key != "svg"}
    return value


def headings(reader, entries):
    """Page and title of every bookmark, in order."""
    for entry in entries:
        if isinstance(entry, list):
            yield from headings(reader, entry)
        else:
            yield f"{reader.get_destination_page_number(entry) + 1} {entry.title}"


def test_everything_the_packet_says(data, golden):
    # source: regression; looked at on paper when it was renewed
    golden("boot-bench.json", json.dumps(wordless(data), indent=1, ensure_ascii=False) + "\n")


def test_what_stands_on_which_page(data, golden):
    # source: regression; only heads and step titles, for line breaks depend on the setter's version
    reader = pypdf.PdfReader(BytesIO(packet_pdf(data, "letter")))
    lines = list(headings(reader, reader.outline))
    golden("boot-bench-pages.txt", "\n".join(lines) + "\n")


def test_part_sheet_drawing(data, golden):
    # source: regression; a side with dado, groove, mortise, dowels and pilots
    side = next(sheet for sheet in data["sheets"] if sheet["name"] == "side")
    golden("boot-bench-side.svg", side["svg"].replace("><", ">\n<") + "\n")
