"""Every example in the manual resolves, and every wrong one says what the manual says it does."""

import re
from pathlib import Path

import pytest

from scantling.errors import ReadError
from scantling.piece import read_piece_text, resolve
from scantling.piece.language import house_kit, house_kit_names
from scantling.piece.language.kit_pages import kit_pages
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


def test_the_manual_says_what_each_kit_makes_as_the_kits_say_it():
    assert kit_pages() in MANUAL, "run python -m scantling.piece.language.kit_pages"


@pytest.mark.parametrize("kit", house_kit_names())
def test_the_manual_says_what_each_kit_wants(kit):
    row = next(line for line in MANUAL.splitlines() if line.startswith(f"| `{kit}` |"))
    given = [e.name for e in house_kit(kit).root.get("materials").entries if e.value.text == "given"]
    assert row.endswith(f"| {', '.join(f'`{name}`' for name in given)} |")


def test_a_page_of_a_kit_holds_all_that_may_be_said():
    page = kit_pages().partition("### The kit `drawer`")[2].partition("###")[0]
    # source: by hand, from the kit's file
    for words in (
        "to be given: `box`, `front`",
        "`sides: thick of box otherwise 1/2`",
        "`short: 1/2`",
        "`corners: half-blind dovetails or rabbet or dowels`",
        "| side, left and right | `box` | `sides inward from left + side gap` |",
        "It slides `length of side * 3/4 forward`.",
    ):
        assert words in page


def test_the_manual_names_every_method():
    for method in METHODS:
        assert method in MANUAL
