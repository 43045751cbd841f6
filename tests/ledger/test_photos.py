"""Photos of boards and their corners."""

from __future__ import annotations

import pytest

from scantling.errors import ScantlingError
from scantling.ledger import photos

CORNERS = ((0.1, 0.2), (0.9, 0.2), (0.95, 0.8), (0.05, 0.8))


def test_a_photo_takes_the_place_of_the_last(ledger):
    ledger.photos.put("shop", "board 1", b"old", 400, 300, CORNERS)
    kept = ledger.photos.put("shop", "board 1", b"new", 800, 600)
    assert ledger.photos.jpeg("shop", "board 1") == b"new"
    assert ledger.photos.all("shop") == {"board 1": kept}
    assert (kept.width, kept.height, kept.corners) == (800, 600, None)


def test_corners_come_back_as_set(ledger):
    ledger.photos.put("shop", "board 1", b"jpeg", 400, 300)
    ledger.photos.set_corners("shop", "board 1", CORNERS)
    assert ledger.photos.get("shop", "board 1").corners == CORNERS
    ledger.photos.set_corners("shop", "board 1", None)
    assert ledger.photos.get("shop", "board 1").corners is None


@pytest.mark.parametrize("corners", [CORNERS[:3], (*CORNERS[:3], (1.2, 0.5)), (*CORNERS[:3], (-0.1, 0))])
def test_corners_lie_in_the_photo(ledger, corners):
    ledger.photos.put("shop", "board 1", b"jpeg", 400, 300, CORNERS)
    with pytest.raises(ScantlingError, match="four corners"):
        ledger.photos.set_corners("shop", "board 1", corners)
    assert ledger.photos.get("shop", "board 1").corners == CORNERS


def test_a_photo_is_taken_out(ledger):
    ledger.photos.put("shop", "board 1", b"jpeg", 400, 300)
    ledger.photos.remove("shop", "board 1")
    assert ledger.photos.get("shop", "board 1") is None
    assert ledger.photos.jpeg("shop", "board 1") is None


def test_a_photo_has_an_end(ledger, monkeypatch):
    monkeypatch.setattr(photos, "BIGGEST", 10)
    with pytest.raises(ScantlingError, match="too big"):
        ledger.photos.put("shop", "board 1", b"x" * 11, 4, 3)
    assert ledger.photos.all("shop") == {}
