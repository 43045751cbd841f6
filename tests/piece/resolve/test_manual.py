"""Every example in the manual resolves, and every wrong one says what the manual says it does."""

import re
from pathlib import Path

import pytest

from scantling.errors import ReadError
from scantling.piece import read_piece_text, resolve
from scantling.piece.language import house_kit, house_kit_names
from scantling.piece.methods import METHODS

MANUAL = (Path(__file__).parents[3] / "docs" / "piece-language.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"```yaml( wrong)?\n(.*?)```", MANUAL, re.DOTALL)
RIGHT = [text for wrong, text in BLOCKS if not wrong]
WRONG = [text for wrong, text in BLOCKS if wrong]


def whole(text):
    """A fragment with the head it does not say itself."""
    head = (
        ""
        if "piece:" in text
        else "piece: fragment\nunits: inches\noverall: {wide: 36, deep: 18, high: 30}\n"
    )
    materials = "" if re.search(r"^materials:", text, re.MULTILINE) else "materials: {wood: cherry 3/4}\n"
    return head + materials + text


@pytest.mark.parametrize("text", RIGHT)
def test_an_example_resolves_with_nothing_amiss(text):
    piece = resolve(read_piece_text(whole(text), "manual.yaml"))
    assert piece.parts
    assert [n.message for n in piece.notices if n.must] == []


@pytest.mark.parametrize("text", WRONG)
def test_a_wrong_example_says_why(text):
    says = re.search(r"# says: (.*)", text).group(1)
    with pytest.raises(ReadError) as caught:
        resolve(read_piece_text(whole(text), "manual.yaml"))
    assert says in str(caught.value)


def test_there_are_examples():
    assert len(RIGHT) >= 12
    assert len(WRONG) >= 3


@pytest.mark.parametrize("kit", house_kit_names())
def test_the_manual_lists_every_setting_of_every_kit(kit):
    row = next(line for line in MANUAL.splitlines() if line.startswith(f"| `{kit}` |"))
    root = house_kit(kit).root
    for group in ("sizes", "choices", "materials"):
        node = root.get(group)
        for entry in node.entries if node is not None else ():
            assert f"`{entry.name}`" in row


def test_the_manual_names_every_method():
    for method in METHODS:
        assert method in MANUAL
