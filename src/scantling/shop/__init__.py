"""The shop: stock, machines, clamps, hardware, prices, climate and hours, as a maker writes them.

Knows trade sizes and what tools can join; knows no piece. Gives a `Shop`, and the facts `resolve` wants.
"""

from scantling.shop.facts import facts_of
from scantling.shop.model import Shop
from scantling.shop.read import read_shop, read_shop_text
from scantling.shop.usual import default_shop

__all__ = ["Shop", "default_shop", "facts_of", "read_shop", "read_shop_text"]
