"""What is sent in place of a photo: bombs, halves, other things; and what a phone says in one."""

from __future__ import annotations

import random
import struct
import zlib
from collections.abc import Iterator
from io import BytesIO

import pytest
from PIL import Image
from tests.desk.hostile.bench import Bench, bench

from scantling.desk.rack.pictures import MOST_PIXELS, NotAPicture, kept_picture, straightened

AT = "/rack/board/photo?board=W1"
SVG = b'<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"><script>alert(1)</script></svg>'


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Bench]:
    folder = tmp_path_factory.mktemp("photos") / "pieces"
    folder.mkdir()
    with bench(folder) as opened:
        yield opened


def chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


def png(wide: int, high: int, rows: int, more: bytes = b"") -> bytes:
    """A grey picture that says it is so large, with so many rows in it."""
    packer = zlib.compressobj(9)
    packed = b"".join(packer.compress(bytes(wide + 1)) for _ in range(rows)) + packer.flush()
    head = chunk(b"IHDR", struct.pack(">IIBBBBB", wide, high, 8, 0, 0, 0, 0))
    return b"\x89PNG\r\n\x1a\n" + head + more + chunk(b"IDAT", packed) + chunk(b"IEND", b"")


def photo(kind: str = "JPEG", orientation: int = 1) -> bytes:
    out = BytesIO()
    picture = Image.effect_noise((60, 40), 80).convert("RGB")
    told = picture.getexif()
    told[0x0112], told[0x010E], told[0x010F] = orientation, "at 12.34 N, the secret words", "<script>"
    picture.save(out, kind, exif=told)
    return out.getvalue()


BOMBS = {
    "30 000 by 30 000": png(30_000, 30_000, 3),
    "one pixel too many": png(MOST_PIXELS // 1000, 1001, 0),
    "words that unpack without end": png(
        8, 8, 8, chunk(b"zTXt", b"a\0\0" + zlib.compress(bytes(90_000_000)))
    ),
    "half": photo("PNG")[:900],
    "nothing": b"",
    "a drawing with a script": SVG,
    "a page": b"<!doctype html><script>alert(1)</script>",
    "a moving picture": b"GIF89a" + bytes(60),
    "a print": b"%PDF-1.7\n",
    "PostScript": b"%!PS-Adobe-3.0 EPSF-3.0\n%%BoundingBox: 0 0 9 9\n",
}


@pytest.mark.parametrize("what", BOMBS)
def test_what_is_no_photo_is_refused_and_not_kept(desk: Bench, what: str) -> None:
    answer = desk.client.post(AT, files={"photo": ("board.jpg", BOMBS[what], "image/jpeg")})
    assert answer.status_code == 422
    assert "no photo" in answer.text
    assert desk.client.get(AT).status_code == 404


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_a_photo_keeps_nothing_but_its_picture(desk: Bench, kind: str) -> None:
    both = photo(kind, orientation=6) + SVG + b"PK\x03\x04 the secret words"
    sent = desk.client.post(AT, files={"photo": ('../../a"b.svg', both, "image/svg+xml")})
    assert sent.headers["hx-redirect"] == "/rack/board?board=W1"
    kept = desk.client.get(AT)
    assert kept.headers["content-type"] == "image/jpeg"
    assert not any(words in kept.content for words in (b"secret", b"script", b"PK\x03\x04"))
    again = Image.open(BytesIO(kept.content))
    assert (again.format, again.size, dict(again.getexif())) == ("JPEG", (40, 60), {})
    desk.client.post("/rack/board/photo/away?board=W1")


def test_more_than_a_photo_is_too_large(desk: Bench) -> None:
    answer = desk.client.post(AT, files={"photo": ("a.jpg", bytes(12_000_001), "image/jpeg")})
    assert answer.status_code == 413


@pytest.mark.parametrize("kind", ["JPEG", "WEBP", "PNG"])
def test_a_spoiled_photo_is_a_photo_or_told_to_be_none(kind: str) -> None:
    whole, chance = photo(kind), random.Random(7)
    for _ in range(150):
        spoiled = bytearray(whole)
        for _ in range(chance.choice((1, 3, 20))):
            spoiled[chance.randrange(min(len(whole), chance.choice((300, len(whole)))))] = chance.randrange(
                256
            )
        try:
            jpeg, wide, high = kept_picture(bytes(spoiled))
        except NotAPicture:
            continue
        assert Image.open(BytesIO(jpeg)).size == (wide, high)


@pytest.mark.parametrize(
    "corners",
    [
        "nan nan nan nan nan nan nan nan",
        "inf 0 1 0 1 1 0 1",
        "0 0 1e-9 0 1e-9 1e-9 0 1e-9",
        "0 0 0 0 0 0 0 0",
        "1 2 3",
    ],
)
def test_corners_that_are_none_are_refused(desk: Bench, corners: str) -> None:
    desk.client.post(AT, files={"photo": ("a.jpg", photo(), "image/jpeg")})
    answer = desk.client.post("/rack/board/corners?board=W1", data={"corners": corners})
    assert answer.status_code == 422
    assert desk.client.get("/rack/board/straight?board=W1").status_code == 404


def test_a_board_as_wide_as_no_tree_makes_no_endless_picture() -> None:
    corners = ((0.1, 0.1), (0.9, 0.1), (0.9, 0.9), (0.1, 0.9))
    flat = straightened(photo(), corners, length=1e-3, width=1e6)
    assert max(Image.open(BytesIO(flat)).size) <= 2400
