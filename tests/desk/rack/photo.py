"""Pictures as a phone would send them, drawn for the tests."""

from __future__ import annotations

from io import BytesIO

from PIL import Image, ImageDraw

RED, GREEN, BROWN = (200, 30, 30), (30, 160, 60), (150, 110, 70)


def sent(kind: str = "JPEG", size: tuple[int, int] = (400, 300), **more: object) -> bytes:
    """A brown picture, red in its upper left quarter."""
    picture = Image.new("RGB", size, BROWN)
    ImageDraw.Draw(picture).rectangle([0, 0, size[0] // 2 - 1, size[1] // 2 - 1], fill=RED)
    out = BytesIO()
    picture.save(out, kind, **more)
    return out.getvalue()


def board_seen_aslant() -> bytes:
    """A board with corners (100, 100) (700, 60) (760, 300) (60, 260) of 800 x 400, green where it is."""
    picture = Image.new("RGB", (800, 400), BROWN)
    ImageDraw.Draw(picture).polygon([(100, 100), (700, 60), (760, 300), (60, 260)], fill=GREEN)
    out = BytesIO()
    picture.save(out, "PNG")
    return out.getvalue()


def read(jpeg: bytes) -> Image.Image:
    return Image.open(BytesIO(jpeg)).convert("RGB")


def near(found: object, wanted: tuple[int, int, int]) -> bool:
    """The same colour, but for what JPEG loses."""
    assert isinstance(found, tuple)
    return all(abs(a - b) < 25 for a, b in zip(found, wanted, strict=True))
