"""Photos as a phone sends them: checked, turned upright, made smaller, stripped of all but the picture."""

from __future__ import annotations

import warnings
from functools import lru_cache
from io import BytesIO
from typing import TYPE_CHECKING

from scantling.desk.rack.straight import plane_between
from scantling.errors import ScantlingError

if TYPE_CHECKING:
    from PIL.Image import Image

    from scantling.ledger import Corners

KINDS = ("JPEG", "PNG", "WEBP")
LONGEST = 2000  # pixels kept along the longer side
MOST_PIXELS = 80_000_000
QUALITY = 85
STRAIGHT_LONG, STRAIGHT_LEAST = 2400, 160  # pixels of a straightened board, along and across


class NotAPicture(ScantlingError):
    """What was sent is no picture of a kind that is kept."""


def kept_picture(sent: bytes) -> tuple[bytes, int, int]:
    """A photo as JPEG, upright, at most LONGEST pixels long, without metadata; its width and height.

    Raises NotAPicture.
    """
    from PIL import Image, ImageOps

    with warnings.catch_warnings():
        warnings.simplefilter("error", Image.DecompressionBombWarning)
        try:
            opened = Image.open(BytesIO(sent), formats=KINDS)
            _check_pixels(opened)
            opened.draft("RGB", (LONGEST, LONGEST))
            upright = ImageOps.exif_transpose(opened)
        except Exception:  # a spoiled picture makes its reader stumble in any way
            raise NotAPicture(
                "this is no photo the desk can keep; send a JPEG, PNG or WebP picture"
            ) from None
    upright.thumbnail((LONGEST, LONGEST))
    bare = _on_white(upright)
    return _jpeg(bare), bare.width, bare.height


@lru_cache(maxsize=6)
def straightened(jpeg: bytes, corners: Corners, length: float, width: float) -> bytes:
    """The board alone as JPEG, end 0 to the left and the straighter edge on top; `length` by `width` [mm]."""
    from PIL import Image

    photo = Image.open(BytesIO(jpeg), formats=("JPEG",))
    wide = STRAIGHT_LONG
    high = round(min(max(STRAIGHT_LEAST, wide * width / length), STRAIGHT_LONG))
    from_corners = [(x * photo.width, y * photo.height) for x, y in corners]
    plane = plane_between([(0, 0), (wide, 0), (wide, high), (0, high)], from_corners)
    flat = photo.transform((wide, high), Image.Transform.PERSPECTIVE, plane, Image.Resampling.BICUBIC)
    return _jpeg(flat)


def _check_pixels(opened: Image) -> None:
    if opened.width * opened.height > MOST_PIXELS:
        raise ValueError


def _on_white(picture: Image) -> Image:
    """A picture of its own, so that nothing said in the old file comes along."""
    from PIL import Image

    seen = picture.convert("RGBA")
    bare = Image.new("RGB", seen.size, "white")
    bare.paste(seen, mask=seen.getchannel("A"))
    return bare


def _jpeg(picture: Image) -> bytes:
    out = BytesIO()
    picture.save(out, "JPEG", quality=QUALITY, optimize=True)
    return out.getvalue()
