"""The accessibility checks of axe-core, fetched for the tests and never committed: its licence is MPL-2.0."""

from __future__ import annotations

import os
from functools import cache
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page

ROOT = Path(__file__).parents[3]
AXE = ROOT / "build" / "axe" / "node_modules" / "axe-core" / "axe.min.js"
AXE_DIGEST = "29348999450cdf2849a8e70b7912fc2da85a849da39c0d0d5394f51d4a9ed95c"
FETCH = "npm install --no-save --prefix build/axe axe-core@4.14.1"
TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


def must_be_there() -> bool:
    """On the machine that checks every change nothing is passed over."""
    return os.environ.get("CI") == "true"


@cache
def axe_source() -> str:
    """The script, or the test is passed over with the reason (it fails where nothing may be passed over)."""
    if not AXE.is_file():
        (pytest.fail if must_be_there() else pytest.skip)(f"axe-core is not here; fetch it with: {FETCH}")
    content = AXE.read_bytes()
    assert sha256(content).hexdigest() == AXE_DIGEST, (
        f"another version of axe-core is here; fetch it with: {FETCH}"
    )
    return content.decode("utf-8")


def violations(page: Page) -> list[str]:
    """What axe finds amiss on the page as it is now: rule, help and the elements, one line each."""
    if not page.evaluate("() => 'axe' in window"):
        page.evaluate(axe_source())
    found: dict[str, Any] = page.evaluate(
        "tags => axe.run(document, {runOnly: {type: 'tag', values: tags}, resultTypes: ['violations']})", TAGS
    )
    return [_told(violation) for violation in found["violations"]]


def _told(violation: dict[str, Any]) -> str:
    places = "; ".join(f"{node['html'][:160]} ({node['failureSummary']})" for node in violation["nodes"])
    return f"{violation['id']}: {violation['help']}: {places}"
