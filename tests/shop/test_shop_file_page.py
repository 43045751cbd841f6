"""Every snippet of docs/shop-file.md is a file that reads, and the page tells the words the reader knows."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from scantling.shop import read_shop_text
from scantling.shop.defects import DEFECTS
from scantling.shop.floor import MACHINE
from scantling.shop.model import MachineKind
from scantling.shop.read import KEYS

PAGE = (Path(__file__).parents[2] / "docs" / "shop-file.md").read_text(encoding="utf-8")
SNIPPETS = re.findall(r"```yaml\n(.*?)```", PAGE, flags=re.DOTALL)


@pytest.mark.parametrize("snippet", SNIPPETS)
def test_a_snippet_reads(snippet):
    shop = read_shop_text(snippet, "page.yaml")
    stock = (*shop.boards, *shop.sheets, *shop.lumber, *shop.for_sale)
    assert len(stock) + len(shop.machines) + len(shop.clamps) + len(shop.hardware) > 0


def test_the_page_names_every_word():
    words = [*KEYS, *DEFECTS, *(kind.value for kind in MachineKind), *MACHINE.words]
    assert [word for word in words if word not in PAGE] == []
