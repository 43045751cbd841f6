"""Rows of sizes, choices and materials; what changing them writes."""

from __future__ import annotations

import pickle

import pytest

from scantling.errors import Conflict, ReadError
from scantling.piece import resolve
from scantling.piece.editing import (
    Stands,
    Where,
    choice_rows,
    choose,
    keep_option,
    keep_size,
    material_rows,
    set_words,
    size_rows,
)
from scantling.piece.editing.quantities import number_words, quantity_words
from scantling.piece.language import reread
from scantling.quantity import LengthUnit
from scantling.quantity.kinds import Kind


def by_name(rows):
    return {row.name: row for row in rows}


def test_every_size_has_a_row_with_its_range_and_what_was_found(pieces):
    document = pieces["sewing-desk"]
    settings = {"tray drop": "41.275 mm"}
    rows = by_name(size_rows(document, resolve(document, settings=settings), settings))
    drop, wide, seam = rows["tray drop"], rows["overall wide"], rows["seam"]
    assert (drop.path, drop.words.text) == (("sizes", "tray drop"), "least within 1 to 3 by 1/8")
    assert (drop.value, drop.low, drop.high, drop.step) == pytest.approx((41.275, 25.4, 76.2, 3.175))
    assert (drop.wish, drop.settled) == ("least", "41.275 mm")
    assert (wide.path, wide.step) == (("overall", "wide"), None)
    assert (wide.low, wide.high) == pytest.approx((863.6, 1066.8))
    assert (seam.words.file, seam.words.stands, seam.wish) == ("hall-pieces.yaml", Stands.FOLLOWED, "")
    assert pickle.loads(pickle.dumps(tuple(rows.values()))) == tuple(rows.values())


def test_choices_and_materials_have_their_alternatives_as_written(pieces):
    document = pieces["sewing-desk"]
    panels = by_name(material_rows(document, resolve(document), {}))["panels"]
    assert (panels.taken, panels.options) == ("walnut plywood 3/4", ("walnut plywood 3/4", "walnut 3/4"))
    assert panels.thick == pytest.approx(19.05)
    box = pieces["sliding-lid-box"]
    corners = by_name(choice_rows(box, resolve(box), {}))["corners"]
    assert corners.options == ("splined mitre", "finger joint", "rabbet")
    assert (corners.taken, corners.free) == ("splined mitre", False)


BASE = "piece: base\nunits: mm\noverall: {wide: 800, deep: 300, high: 700}\nsizes: {post: 40, gap: 2}\n"


@pytest.mark.parametrize(
    ("own", "path", "after"),
    [
        # source: by hand
        (
            "piece: own\nfollows: base.yaml\nnote: x\n",
            ("sizes", "post"),
            "piece: own\nfollows: base.yaml\nsizes: {post: 45}\nnote: x\n",
        ),
        (
            "piece: own\nfollows: base.yaml\noverall:\n  deep: 320  # here\n",
            ("overall", "wide"),
            "piece: own\nfollows: base.yaml\noverall:\n  deep: 320  # here\n  wide: 45\n",
        ),
        (
            "piece: own\r\nfollows: base.yaml\r\nsizes: {gap: 3}\r\n",
            ("sizes", "post"),
            "piece: own\r\nfollows: base.yaml\r\nsizes: {gap: 3, post: 45}\r\n",
        ),
    ],
)
def test_a_size_of_a_followed_file_is_written_over_here(refit, own, path, after):
    document = refit(own, BASE)
    was = document.root.get(path[0]).get(path[1]).text
    write = set_words(document, path, was, "45")
    assert write.files == (("own.yaml", after),)
    again = reread(document, dict(write.files))
    assert again.root.get(path[0]).get(path[1]).text == "45"
    assert write.freed == ((" ".join(path),) if path[0] == "overall" else (path[1],))


def test_or_it_is_changed_for_all_who_follow(refit):
    document = refit("piece: own\nfollows: base.yaml\n", BASE)
    write = set_words(document, ("sizes", "post"), "40", "45", Where.EVERYWHERE)
    assert write.files == (("base.yaml", BASE.replace("40", "45")),)
    with pytest.raises(Conflict):
        set_words(document, ("sizes", "post"), "41", "45")
    with pytest.raises(ReadError, match="wanted"):
        set_words(document, ("sizes", "post"), "40", "45 +")


def test_lines_of_a_followed_file_are_not_written_over(refit):
    document = refit("piece: own\nfollows: base.yaml\n", BASE + "joints: [{join: a, to: b, with: dado}]\n")
    with pytest.raises(ReadError, match="stands in a list"):
        set_words(document, ("joints", "1", "with"), "dado", "groove")
    everywhere = set_words(document, ("joints", "1", "with"), "dado", "groove", Where.EVERYWHERE)
    assert "with: groove" in everywhere.files[0][1]


@pytest.mark.parametrize(
    ("words", "option", "after"),
    [
        # source: piece language, "the first is taken"
        ("a or b or c", "b", "b or a or c"),
        ("a or b", "a", "a or b"),
        ("any of a or b", "b", "b or a"),
        ("a or b", "new one", "new one or a or b"),
    ],
)
def test_the_option_chosen_stands_first(small, words, option, after):
    document = small(f"choices: {{corners: {words}}}  # kept\n")
    write = choose(document, ("choices", "corners"), words, option)
    assert f"choices: {{corners: {after}}}  # kept\n" in write.files[0][1]
    assert write.what == f"corners: {option} is taken"


def test_a_material_chosen_keeps_its_sizes(pieces):
    document = pieces["sewing-desk"]
    was = "walnut plywood 3/4 or walnut 3/4"
    write = choose(document, ("materials", "panels"), was, "walnut 3/4")
    assert "panels: walnut 3/4 or walnut plywood 3/4}" in write.files[0][1]
    kept = resolve(reread(document, dict(write.files)))
    assert next(m for m in kept.materials if m.name == "panels").text == "walnut 3/4"


def test_what_the_tool_found_is_kept_in_place_of_the_word(pieces):
    document = pieces["sewing-desk"]
    piece = resolve(document, settings={"tray drop": "41.275 mm"})
    write = keep_size(document, piece.size("tray drop"))
    # source: piece language 2.4, "the word is replaced by the number"; the tool's answer is 1 5/8
    assert "tray drop: 1 5/8 within 1 to 3 by 1/8}" in write.files[0][1]
    assert write.files[0][1] == document.text.replace("least within", "1 5/8 within")
    with pytest.raises(ReadError, match="not left to the tool"):
        keep_size(document, piece.size("fold depth"))


def test_an_option_the_tool_took_is_kept(small):
    document = small("choices: {corners: any of dowels or rabbet}\n")
    assert "corners: rabbet or dowels}" in keep_option(document, "corners", "rabbet").files[0][1]
    with pytest.raises(ReadError, match="no choice or material"):
        keep_option(document, "nothing", "rabbet")


@pytest.mark.parametrize(
    ("value", "kind", "unit", "words"),
    [
        # source: by hand
        (41.275, Kind.LENGTH, LengthUnit.INCHES, "1 5/8"),
        (17.6, Kind.LENGTH, LengthUnit.MM, "17.6"),
        (17.65, Kind.LENGTH, LengthUnit.MM, "17.65"),
        (10.0, Kind.LENGTH, LengthUnit.INCHES, "0.393701"),
        (8.5, Kind.ANGLE, LengthUnit.MM, "8.5 deg"),
        (4.0, Kind.COUNT, LengthUnit.MM, "4 pcs"),
        (0.6, Kind.RATIO, LengthUnit.MM, "60 %"),
    ],
)
def test_quantities_are_written_as_a_maker_does(value, kind, unit, words):
    assert quantity_words(value, kind, unit) == words
    if kind is Kind.LENGTH:
        assert number_words(value, unit) == words
