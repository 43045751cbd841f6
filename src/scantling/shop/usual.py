"""A shop for makers who have not written theirs: the trade's usual sizes, nothing owned."""

from __future__ import annotations

from functools import cache
from importlib.resources import files

from scantling.shop.model import Shop
from scantling.shop.read import read_shop_text


@cache
def default_shop() -> Shop:
    """The trade's usual stock, all of it to buy, and hand-held machines. Its prices are invented."""
    text = files("scantling.shop").joinpath("usual_shop.yaml").read_text(encoding="utf-8")
    return read_shop_text(text, "usual_shop.yaml")
