"""Photos taken in: upright, small, bare; and anything else refused."""

from __future__ import annotations

from io import BytesIO

import pytest
from PIL import Image
from tests.desk.rack.photo import BROWN, GREEN, RED, board_seen_aslant, near, read, sent

from scantling.desk.rack import pictures
from scantling.desk.rack.pictures import NotAPicture, kept_picture, straightened

ORIENTATION = 0x0112
MADE_WITH = 0x0110


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_the_three_kinds_are_kept_as_jpeg(kind):
    jpeg, wide, high = kept_picture(sent(kind))
    assert (wide, high) == (400, 300)
    assert jpeg[:3] == b"\xff\xd8\xff"
    assert near(read(jpeg).getpixel((50, 50)), RED)


def test_a_large_photo_is_made_smaller():
    jpeg, wide, high = kept_picture(sent(size=(5000, 1000)))
    assert (wide, high) == (2000, 400)
    assert read(jpeg).size == (2000, 400)


def test_a_photo_taken_on_its_side_is_turned_upright_and_says_nothing_of_where():
    exif = Image.Exif()
    exif[ORIENTATION] = 6  # the phone was held upright: turn it a quarter to the right
    exif[MADE_WITH] = "A phone, at home"
    jpeg, wide, high = kept_picture(sent(exif=exif, comment=b"at home"))
    assert (wide, high) == (300, 400)
    assert near(read(jpeg).getpixel((250, 50)), RED)  # the upper left quarter is the upper right one now
    assert near(read(jpeg).getpixel((50, 50)), BROWN)
    assert b"at home" not in jpeg
    assert not Image.open(BytesIO(jpeg)).getexif()


def test_what_can_be_seen_through_lies_on_white():
    out = BytesIO()
    Image.new("RGBA", (20, 20), (0, 0, 0, 0)).save(out, "PNG")
    assert read(kept_picture(out.getvalue())[0]).getpixel((5, 5)) == (255, 255, 255)


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"<svg xmlns='http://www.w3.org/2000/svg'/>",
        b"GIF89a" + bytes(50),
        sent("GIF"),
        sent("TIFF"),
        sent("JPEG")[:400],
        sent("PNG")[:60],
    ],
    ids=["nothing", "svg", "no gif", "gif", "tiff", "half a jpeg", "half a png"],
)
def test_anything_else_is_refused(data):
    with pytest.raises(NotAPicture):
        kept_picture(data)


def test_a_picture_of_too_many_points_is_refused_before_it_is_unpacked(monkeypatch):
    monkeypatch.setattr(pictures, "MOST_PIXELS", 1000)
    with pytest.raises(NotAPicture):
        kept_picture(sent())


def test_a_picture_that_would_unpack_to_a_flood_is_refused():
    small = Image.new("1", (16_000, 12_000))
    out = BytesIO()
    small.save(out, "PNG")
    assert len(out.getvalue()) < 100_000
    with pytest.raises(NotAPicture):
        kept_picture(out.getvalue())


def test_a_board_seen_aslant_fills_its_rectangle():
    jpeg, wide, high = kept_picture(board_seen_aslant())
    corners = (
        (100 / wide, 100 / high),
        (700 / wide, 60 / high),
        (760 / wide, 300 / high),
        (60 / wide, 260 / high),
    )
    flat = read(straightened(jpeg, corners, 1000.0, 250.0))
    assert flat.size == (2400, 600)
    for at in ((12, 12), (2387, 12), (2387, 587), (12, 587), (1200, 300)):
        assert near(flat.getpixel(at), GREEN), at
