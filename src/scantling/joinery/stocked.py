"""Which of the shop's fittings a use is: by kind, and by every size that both name."""

from __future__ import annotations

from dataclasses import replace

from scantling.joinery.features import HardwareUse
from scantling.shop.model import HardwareItem, Shop

_SAME = 0.4  # mm


def from_shop(use: HardwareUse, shop: Shop) -> HardwareUse:
    """The use with the shop's item named, where one agrees; as it was where none does."""
    if use.item is not None:
        return use
    item = next((item for item in shop.hardware if _agrees(item, use)), None)
    return replace(use, item=item.id) if item else use


def _agrees(item: HardwareItem, use: HardwareUse) -> bool:
    if item.kind != use.kind:
        return False
    sizes, wanted = dict(item.sizes), dict(use.sizes)
    return all(abs(sizes[name] - wanted[name]) <= _SAME for name in sizes.keys() & wanted.keys())
