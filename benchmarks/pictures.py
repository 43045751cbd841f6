"""Makes the README's pictures from the demo piece: `make docs`.

Three SVG files and one page of the printed packet as PNG, all in `docs/pictures`. The same plan gives the
same bytes.
"""

from __future__ import annotations

from io import BytesIO
from pathlib import Path
from typing import Any

import pypdf
from scantling.packet.files import write_whole

from scantling.packet.context import context_of
from scantling.packet.data import packet_data
from scantling.packet.pdf import packet_pages, packet_pdf
from scantling.packet.views import pose_picture
from scantling.piece import read_piece
from scantling.plan import Plan, make_plan
from scantling.shop import read_shop

ROOT = Path(__file__).parents[1]
EXAMPLES = ROOT / "src" / "scantling" / "examples"
PICTURES = ROOT / "docs" / "pictures"
DEMO, POSE, SHEET = "sewing-desk.yaml", "sewing", "fold rail"
DOTS_PER_INCH = 96


def pictures(plan: Plan) -> dict[str, bytes]:
    """Every picture by file name."""
    data: dict[str, Any] = packet_data(plan)
    fullest = max(data["cutting"]["layouts"], key=lambda layout: len(layout["blanks"]))
    pose = pose_picture(context_of(plan, None).gallery, POSE, (150.0, 130.0))
    return {
        "desk-sewing.svg": on_white(pose.svg),
        "board.svg": on_white(fullest["svg"]),
        "apart.svg": on_white(data["exploded"]["svg"]),
        "page.png": sheet_page(data),
    }


def on_white(svg: str) -> bytes:
    """With a ground of its own, for readers with a dark screen."""
    end = svg.index(">") + 1
    return f'{svg[:end]}<rect width="100%" height="100%" fill="#fff"/>{svg[end:]}\n'.encode()


def sheet_page(data: dict[str, Any]) -> bytes:
    """The page of print on which the sheet of `SHEET` stands."""
    reader = pypdf.PdfReader(BytesIO(packet_pdf(data, "letter")))
    number = next(item["number"] for item in data["sheets"] if item["name"] == SHEET)
    page = next(
        n for n, title in bookmarks(reader, reader.outline) if title.startswith(f"{number} {SHEET} ×")
    )
    return packet_pages(data, "letter", DOTS_PER_INCH)[page]


def bookmarks(reader: pypdf.PdfReader, entries: list[Any]) -> list[tuple[int, str]]:
    """Page and plain title of every bookmark."""
    found: list[tuple[int, str]] = []
    for entry in entries:
        if isinstance(entry, list):
            found += bookmarks(reader, entry)
        else:
            page = reader.get_destination_page_number(entry)
            found.append((page or 0, " ".join(str(entry.title).split())))
    return found


def main() -> None:
    """Plan the demo and write its pictures."""
    plan = make_plan(read_piece(EXAMPLES / DEMO), read_shop(EXAMPLES / "shops" / DEMO))
    PICTURES.mkdir(parents=True, exist_ok=True)
    for name, content in pictures(plan).items():
        print(write_whole(PICTURES / name, content), len(content) // 1000, "kB")


if __name__ == "__main__":
    main()
