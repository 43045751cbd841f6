# ruff: noqa: E501 - pieces as a maker writes them, one part a line
"""How thick a kit's parts are: as the material given, as measured; the kit's own size where it says none."""

import pytest

from scantling.errors import ReadError, ResolveError
from scantling.piece.facts import LumberFact, SheetFact, ShopFacts
from scantling.piece.model import Axis

HEAD = "piece: small\nunits: mm\noverall: {wide: 600, deep: 400, high: 700}\n"
PLACE = "spaces: {place: {wide: left to right, deep: front to back, high: bottom to top}}\n"
PLYWOODS = "materials: {wood: cherry 19, front ply: birch plywood 18, box ply: birch plywood 12, thin ply: birch plywood 6}\n"
MEASURED = ShopFacts(
    sheets=tuple(
        SheetFact("birch plywood", label, thick) for label, thick in ((18, 17.6), (12, 11.7), (6, 5.6))
    )
)
# kit, what it is given, part, axis of its thickness, thickness in mm
# source: the shop's measures above
SHEETS = [
    ("drawer", "front: front ply, box: box ply, bottom: thin ply", "front", Axis.DEEP, 17.6),
    ("drawer", "front: front ply, box: box ply, bottom: thin ply", "left side", Axis.WIDE, 11.7),
    ("drawer", "front: front ply, box: box ply, bottom: thin ply", "back", Axis.DEEP, 11.7),
    ("drawer", "front: front ply, box: box ply, bottom: thin ply", "bottom", Axis.HIGH, 5.6),
    ("tray", "box: box ply, bottom: thin ply", "front", Axis.DEEP, 11.7),
    ("tray", "box: box ply, bottom: thin ply", "bottom", Axis.HIGH, 5.6),
    ("panel door", "frame: front ply, panel: thin ply", "left stile", Axis.DEEP, 17.6),
    ("panel door", "frame: front ply, panel: thin ply", "panel", Axis.DEEP, 5.6),
    ("plain door", "board: front ply", "board", Axis.DEEP, 17.6),
    ("leg frame", "leg: wood, rail: front ply", "left end rail", Axis.WIDE, 17.6),
    ("lid", "board: front ply, batten: box ply", "board", Axis.HIGH, 17.6),
    ("lid", "board: front ply, batten: box ply", "left batten", Axis.HIGH, 11.7),
    ("top", "board: front ply", "board", Axis.HIGH, 17.6),
    ("shelf", "board: front ply", "board 1", Axis.HIGH, 17.6),
    ("plinth", "board: front ply", "left end", Axis.WIDE, 17.6),
    ("back boards", "board: box ply", "board 1", Axis.DEEP, 11.7),
    ("slats", "slat: box ply", "slat 1", Axis.HIGH, 11.7),
    ("face frame", "frame: front ply", "top rail", Axis.DEEP, 17.6),
    ("box", "board: box ply, bottom: thin ply", "front", Axis.DEEP, 11.7),
    ("dust frame", "front: wood, rest: wood, panel: thin ply", "panel", Axis.HIGH, 5.6),
]
# source: the sizes each kit states in its own file, in inches
BARE = [
    ("drawer", "front: wood, box: wood", "front", Axis.DEEP, 3 / 4),
    ("drawer", "front: wood, box: wood", "left side", Axis.WIDE, 1 / 2),
    ("tray", "box: wood", "left side", Axis.WIDE, 1 / 2),
    ("panel door", "frame: wood, panel: wood", "left stile", Axis.DEEP, 3 / 4),
    ("panel door", "frame: wood, panel: wood", "panel", Axis.DEEP, 3 / 8),
    ("plain door", "board: wood", "board", Axis.DEEP, 3 / 4),
    ("leg frame", "leg: wood, rail: wood", "front rail", Axis.DEEP, 3 / 4),
    ("lid", "board: wood, batten: wood", "board", Axis.HIGH, 3 / 4),
    ("top", "board: wood", "board", Axis.HIGH, 3 / 4),
    ("shelf", "board: wood", "board 1", Axis.HIGH, 3 / 4),
    ("plinth", "board: wood", "front", Axis.DEEP, 3 / 4),
    ("back boards", "board: wood", "board 1", Axis.DEEP, 1 / 2),
    ("slats", "slat: wood", "slat 1", Axis.HIGH, 3 / 4),
    ("face frame", "frame: wood", "left stile", Axis.DEEP, 3 / 4),
    ("box", "board: wood", "left end", Axis.WIDE, 1 / 2),
]


def kit_in_place(small, kit, settings, materials=PLYWOODS, facts=MEASURED):
    text = materials + PLACE + f"parts: {{it: {{kit: {kit}, in: place, {settings}}}}}\n"
    return small(text, facts, head=HEAD)


@pytest.mark.parametrize(("kit", "settings", "part", "axis", "thick"), SHEETS)
def test_a_kit_is_as_thick_as_its_sheet_measures(small, kit, settings, part, axis, thick):
    piece = kit_in_place(small, kit, settings)
    assert piece.part(f"it {part}").box.size(axis) == pytest.approx(thick)
    assert [n.message for n in piece.notices if n.must] == []


@pytest.mark.parametrize(("kit", "settings", "part", "axis", "inches"), BARE)
def test_a_wood_of_no_thickness_takes_the_size_of_the_kit(small, kit, settings, part, axis, inches):
    piece = kit_in_place(small, kit, settings, "materials: {wood: cherry}\n")
    assert piece.part(f"it {part}").box.size(axis) == pytest.approx(inches * 25.4)


def test_a_setting_still_says_otherwise(small):
    piece = kit_in_place(small, "drawer", "front: wood, box: wood, sides: 12, face: thick of wood + 1")
    assert piece.part("it left side").box.size(Axis.WIDE) == pytest.approx(12)
    assert piece.part("it front").box.size(Axis.DEEP) == pytest.approx(20)


@pytest.mark.parametrize(
    ("panel", "thick"),
    [
        # source: by hand; half the frame of 19 at most
        ("wood", 9.5),
        ("cherry 8", 8.0),
        ("cherry 12", 9.5),
    ],
)
def test_a_solid_panel_is_planed_thinner_than_its_frame(small, panel, thick):
    piece = kit_in_place(small, "panel door", f"frame: wood, panel: {panel}")
    assert piece.part("it panel").box.size(Axis.DEEP) == pytest.approx(thick)


def test_a_sheet_of_another_thickness_is_told(small):
    piece = kit_in_place(small, "drawer", "front: front ply, box: box ply, sides: 1/2 in")
    notice = next(n for n in piece.notices if n.must)
    assert notice.code == "sheet of another thickness"
    assert notice.message == "it side is 12.7 mm (1/2 in) thick, but birch plywood 12 is 11.7 mm (15/32 in)"
    assert notice.parts == ("it left side",)


def test_sheets_glued_on_each_other_are_no_other_thickness(small):
    text = (
        PLYWOODS
        + "parts: {a: {of: front ply, wide: left to right, deep: front to back, high: 2 * thick up from bottom, grain: wide}}\n"
    )
    assert [n.code for n in small(text, MEASURED, head=HEAD).notices if n.must] == []


def test_a_gap_between_openings_is_as_thick_as_the_sheet_in_it(small):
    text = (
        PLYWOODS
        + "spaces: {bay: {wide: left to right, deep: front to back, high: bottom to top, split: {up: [rest, rest], leaving: {shelf place: thick of front ply}}}}\n"
        + "parts: {shelf: {of: front ply, in: shelf place, grain: wide}}\n"
    )
    assert small(text, MEASURED, head=HEAD).part("shelf").box.size(Axis.HIGH) == pytest.approx(17.6)


def test_the_width_a_wood_is_sold_at(small):
    text = "materials: {stick: pine 2x4, wood: cherry 19}\nsizes: {broad side: broad of stick, other: broad of wood otherwise 45}\nparts: {a: {wide: broad side right from left, deep: other back from front, high: bottom to top}}\n"
    facts = ShopFacts(lumber=(LumberFact("pine", "2x4", 38.0, 89.0),))
    assert small(text, facts, head=HEAD).part("a").box.sizes == pytest.approx((89, 45, 700))


@pytest.mark.parametrize(
    ("size", "says"),
    [
        ("thick of wod", 'no material is called "wod" (nearest: "wood")'),
        ("thick of a", '"a" is a thing, and `thick of` is of a material (write `thickness of a`)'),
        ("thick of bare", '"oak" says no thickness it is bought at'),
        ("thick", "`thick` is the material of a part, and no part asks here (write `thick of` a material)"),
        ("wood", '"wood" is a material, not a size (write `thick of wood` or `broad of wood`)'),
    ],
)
def test_what_is_no_material(small, size, says):
    text = f"materials: {{wood: cherry 19, bare: oak}}\nsizes: {{s: {size}}}\nparts: {{a: {{wide: s right from left, deep: front to back, high: bottom to top}}}}\n"
    with pytest.raises((ReadError, ResolveError)) as caught:
        small(text, head=HEAD)
    assert says in str(caught.value)


@pytest.mark.parametrize(
    ("of", "thick", "species"),
    [
        # source: dressed 2x4 1 1/2 in (American Softwood Lumber Standard PS 20, table 3); the others as written
        ("pine 2x4", 38.1, "pine, eastern white"),
        ("cherry 22", 22.0, "cherry, black"),
        ("cherry 22 or walnut 20", 22.0, "cherry, black"),
        ("Birch  Plywood 18", 17.6, "birch plywood"),
    ],
)
def test_a_part_may_say_its_wood_itself(small, of, thick, species):
    text = f"parts: {{a: {{of: {of}, wide: thick right from left, deep: 90 back from front, high: bottom to top}}}}\n"
    part = small(text, MEASURED, head=HEAD).part("a")
    assert part.box.sizes[0] == pytest.approx(thick)
    assert part.material.text.lower().split() == of.partition(" or ")[0].lower().split()
    assert part.material.species == species
    piece = small("materials: {wood: ash 20}\n" + text, MEASURED, head=HEAD)
    assert [m.species for m in piece.materials] == ["ash, white", species]


def test_named_materials_stand_before_woods(small):
    # a maker may call a material by a wood's name, or with a number in it
    text = "materials: {cherry: walnut 25, wood 2: ash 30}\nparts:\n  a: {of: cherry, wide: thick right from left, deep: 90 back from front, high: bottom to top}\n  b: {of: wood 2, wide: thick left from right, deep: 90 back from front, high: bottom to top}\n"
    piece = small(text, head=HEAD)
    assert [round(piece.part(name).box.sizes[0], 3) for name in ("a", "b")] == [25, 30]


@pytest.mark.parametrize(
    ("of", "says"),
    [
        ("wod", 'no material is called "wod" (nearest: "wood")'),
        ("chery 3/4 in", 'no wood or sheet is called "chery" (nearest: cherry, cedar)'),
        (
            "birch plywood 450",
            "no sheet is 450 mm (17 23/32 in) thick (thicker parts are glued up by themselves)",
        ),
        ("birch plywood 18 in", "no sheet is 457.2 mm (18 in) thick"),
        (
            "any of ash 25 or oak 25",
            "write `materials: {board: any of ash 25 or oak 25}` and here `of: board`",
        ),
    ],
)
def test_no_such_wood(small, of, says):
    text = f"materials: {{wood: cherry 19}}\nparts: {{a: {{of: {of}, wide: 20 right from left, deep: 90 back from front, high: bottom to top}}}}\n"
    with pytest.raises((ReadError, ResolveError)) as caught:
        small(text, head=HEAD)
    assert says in str(caught.value)


def test_millimetres_in_a_file_in_inches(small):
    text = "piece: small\nunits: inches\noverall: {wide: 24, deep: 12, high: 30}\nmaterials: {ply: birch plywood 18}\nparts: {a: {wide: thick right from left, deep: 3 back from front, high: bottom to top}}\n"
    with pytest.raises(ResolveError) as caught:
        small(text, head="")
    assert (
        str(caught.value)
        == "small.yaml:4:18: ply: no sheet is 18 in (457.2 mm) thick (write `birch plywood 18 mm`)"
    )
