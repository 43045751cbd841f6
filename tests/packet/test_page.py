"""The page as a browser gets it: self-contained, no script, hostile words stay text, nothing lost."""

from __future__ import annotations

import re
from base64 import b64encode
from hashlib import sha256
from html.parser import HTMLParser
from itertools import pairwise

import pytest

from scantling.packet.data import packet_data
from scantling.packet.page import packet_page

HOSTILE = "</script><img src=x onerror=alert(1)> & \"quoted\" 'single'"


class Seen(HTMLParser):
    """Elements, attributes and text of a page."""

    def __init__(self) -> None:
        super().__init__()
        self.elements: list[tuple[str, dict[str, str | None]]] = []
        self.words: list[str] = []
        self.open: list[str] = []

    def handle_starttag(self, tag, attrs):
        self.elements.append((tag, dict(attrs)))
        if tag not in ("meta", "input", "br"):
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.elements.append((tag, dict(attrs)))

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        if "style" not in self.open:
            self.words.append(data)


def seen(page):
    parser = Seen()
    parser.feed(page.decode())
    assert parser.open == []
    return parser


@pytest.fixture(scope="module")
def page(bench_data):
    return packet_page(bench_data)


def test_no_reference_leaves_the_page(page):
    text = page.decode()
    assert "http" not in text.replace("http-equiv", "")
    assert "url(" not in text
    assert "@import" not in text
    for tag, attributes in seen(page).elements:
        assert tag not in ("script", "link", "img", "iframe", "object", "base", "form")
        assert not any(name.startswith("on") or name in ("src", "style") for name in attributes)
        if "href" in attributes:
            assert attributes["href"].startswith("#")


def test_policy_allows_only_the_style_inside(page):
    text = page.decode()
    style = re.search("<style>(.*?)</style>", text, re.S).group(1)
    digest = b64encode(sha256(style.encode()).digest()).decode()
    policy = next(a["content"] for _, a in seen(page).elements if a.get("http-equiv"))
    assert policy.startswith("default-src 'none'")
    assert f"'sha256-{digest}'" in policy


def test_links_lead_somewhere(page):
    elements = seen(page).elements
    idents = {a["id"] for _, a in elements if "id" in a}
    assert {a["href"][1:] for _, a in elements if "href" in a} <= idents


def test_pictures_have_names(page):
    pictures = [a for tag, a in seen(page).elements if tag == "svg"]
    assert len(pictures) > 10
    assert all(a["role"] == "img" and a["aria-label"] for a in pictures)


def test_sizes_parts_and_steps_are_there(page, bench):
    words = re.sub(r"\s+", " ", "".join(seen(page).words))
    assert "36 in (914.4 mm) wide" in words
    assert "33 1/4 in (844.6 mm) overall" in words
    for step in bench.build_plan.steps:
        assert step.text in words
    for finding in bench.findings:
        assert finding.message in words


def test_print_and_page_say_the_same_sections(page):
    heads = re.findall(r"<h2>(.*?)</h2>", page.decode())
    assert {"Parts list", "Shopping list", "Cut plan", "Part sheets", "Safety"} <= set(heads)


def test_hostile_names_stay_text(make_plan):
    page = packet_page(packet_data(make_plan(HOSTILE, HOSTILE)))
    parser = seen(page)
    assert not any(tag in ("img", "script") for tag, _ in parser.elements)
    assert HOSTILE in "".join(parser.words).replace("\u00a0", " ")


def test_control_characters_are_left_out(make_plan):
    page = packet_page(packet_data(make_plan("Bench \u0000\u0007\ud800 椅子")))
    assert "Bench  椅子" in page.decode()


def test_small(page):
    assert len(page) < 2_500_000  # source: desk-and-packet.md section 4


def test_headings_never_skip_a_level(page):
    levels = [int(tag[1]) for tag, _ in seen(page).elements if re.fullmatch("h[1-6]", tag)]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))


def test_every_head_of_a_table_says_what_it_heads(page):
    heads = [attributes for tag, attributes in seen(page).elements if tag == "th"]
    assert {attributes.get("scope") for attributes in heads} == {"col", "row"}


def test_the_language_is_said(page):
    assert ("html", {"lang": "en"}) in seen(page).elements


def luminance(colour):
    # source: published; WCAG 2.2, definition of relative luminance
    parts = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    red, green, blue = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


@pytest.mark.parametrize("ink", ["ink", "quiet", "accent", "alarm"])
@pytest.mark.parametrize("ground", ["#ffffff", "tint", "#f9eae8"])
def test_contrast(page, ink, ground):
    colours = dict(re.findall(r"--(\w+): (#\w{6});", page.decode()))
    light, dark = luminance(colours.get(ground, ground)), luminance(colours[ink])
    # source: published; WCAG 2.2, 1.4.6 asks for 7 : 1 at level AAA, 1.4.3 for 4.5 : 1 at AA
    assert (light + 0.05) / (dark + 0.05) >= 6
