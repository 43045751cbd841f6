"""Spoiled shop files end in a Shop or in a ReadError with a place; never in anything else."""

from __future__ import annotations

import random

import pytest

from scantling.errors import ReadError
from scantling.shop import Shop, read_shop_text

BITS = [
    " x ", ",", ":", "0", "-1", "1/0", "9" * 400, "nan", "\t", "#", "{", "}", "[", "]", "'", '"', "%",
    "on hand", "for sale", "mm", "to", "end", "½", "\n", "  ", "yes", "a litre",
    "for 0", "é", "&x", "*x", "!t", "<<: ",
]  # fmt: skip


def _spoiled(text: str, dice: random.Random) -> str:
    for _ in range(dice.randint(1, 4)):
        at = dice.randrange(len(text) + 1)
        match dice.randrange(4):
            case 0:
                text = text[:at] + dice.choice(BITS) + text[at:]
            case 1:
                text = text[:at] + text[at + dice.randint(1, 12) :]
            case 2:
                lines = text.split("\n")
                lines.insert(dice.randrange(len(lines)), lines.pop(dice.randrange(len(lines))))
                text = "\n".join(lines)
            case _:
                end = min(len(text), at + dice.randint(1, 9))
                text = text[:at] + text[at:end][::-1] + text[end:]
    return text


@pytest.mark.parametrize("seed", range(8))
def test_spoiled_files_are_answered(example_shops, seed):
    dice = random.Random(seed)
    for _ in range(60):
        source = dice.choice(example_shops).read_text(encoding="utf-8")
        spoiled = _spoiled(source, dice)
        answer = _answer(spoiled)
        assert isinstance(answer, Shop) or _is_placed(answer), f"{answer}"


def _answer(text: str) -> Shop | ReadError:
    try:
        return read_shop_text(text, "spoiled.yaml")
    except ReadError as error:
        return error


def _is_placed(error: ReadError) -> bool:
    place = error.place
    return place is not None and place.line >= 1 and place.character >= 1 and bool(error.message)


@pytest.mark.parametrize("line", ["hours a week: [1, 2]", "hours a week: []", "currency: [$]"])
def test_a_list_where_one_thing_is_wanted_is_told(line: str) -> None:
    with pytest.raises(ReadError, match="wants one thing, not a list") as caught:
        read_shop_text(f"shop: s\nunits: mm\n{line}\n", "shop.yaml")
    assert caught.value.place is not None


@pytest.mark.parametrize("air", ["damp: 60 %, at: 1000 F", "damp: 60 %, at: -40 C", "damp: 99.5 %, at: 20 C"])
def test_air_the_handbook_does_not_know_is_refused(air: str) -> None:
    # source: published; Wood Handbook Table 4-2 runs from 30 F to 270 F (here -2 to 130 °C), below 100 %
    with pytest.raises(ReadError, match="wood is reckoned in air of 0 to 99% and -2 to 130 °C") as caught:
        read_shop_text(f"shop: s\nunits: mm\nair: {{dry: 25 %, {air}}}\n", "shop.yaml")
    assert caught.value.place is not None
