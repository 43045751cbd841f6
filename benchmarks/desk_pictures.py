"""Pictures of the desk for the README and the documentation, taken in Chromium from the demo's folder.

    python -m benchmarks.desk_pictures

Each is one screen, at the size of a laptop, a tablet or a phone, written to docs/pictures/.
"""

from __future__ import annotations

import io
import shutil
import tempfile
from dataclasses import dataclass
from pathlib import Path

from PIL import Image
from playwright.sync_api import Browser, Page, sync_playwright
from tests.desk.e2e.conftest import FLAGS
from tests.desk.e2e.served import Served, demo_folder
from tests.desk.e2e.visits import SIZES

PICTURES = Path(__file__).parents[1] / "docs" / "pictures"
COLOURS = 128


@dataclass(frozen=True)
class Shot:
    """One picture: `ready` is what must be on the page first."""

    name: str
    path: str
    size: str
    ready: str


SHOTS = (
    Shot("desk-piece", "/piece/sewing-desk", "desktop", "#pic[data-shown]"),
    Shot("desk-rack", "/rack", "desktop", "h1"),
    Shot("desk-wood", "/piece/sewing-desk/wood", "desktop", "#plan svg"),
    Shot("desk-build", "/piece/sewing-desk/build?step=9", "tablet", "main"),
    Shot("desk-phone", "/rack/board?board=W2", "phone", "h1"),
)


def taken(browser: Browser, desk: Served, shot: Shot) -> Page:
    """The page of a shot, ready to be looked at."""
    page = browser.new_context(**{"reduced_motion": "reduce", **SIZES[shot.size]}).new_page()
    page.goto(desk.url + shot.path)
    page.locator(shot.ready).first.wait_for(state="visible", timeout=60_000)
    page.wait_for_load_state("networkidle", timeout=60_000)
    page.wait_for_timeout(800)  # the last frame of the picture
    return page


def small(png: bytes) -> bytes:
    """The same picture in few colours."""
    out = io.BytesIO()
    Image.open(io.BytesIO(png)).convert("RGB").quantize(COLOURS).save(out, "PNG", optimize=True)
    return out.getvalue()


def main() -> None:
    with tempfile.TemporaryDirectory() as scratch, sync_playwright() as playwright:
        desk = Served(demo_folder(Path(scratch) / "pieces"), Path(scratch) / "desk.log").start()
        browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=FLAGS)
        try:
            for shot in SHOTS:
                png = taken(browser, desk, shot).screenshot()
                (PICTURES / f"{shot.name}.png").write_bytes(small(png))
                print(f"wrote {shot.name}.png")
        finally:
            browser.close()
            desk.stop()


if __name__ == "__main__":
    main()
