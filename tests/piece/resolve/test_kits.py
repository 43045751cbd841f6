"""Every kit of the house resolves in a space 36 wide, 18 deep, 24 high, with the sizes it promises."""

import pytest

from scantling.errors import ReadError
from scantling.piece.language import house_kit_names
from scantling.piece.model import Axis

HEAD = "piece: small\nunits: inches\noverall: {wide: 36, deep: 18, high: 24}\nmaterials: {wood: cherry 3/4}\n"
SPACE = "spaces: {place: {wide: left to right, deep: front to back, high: bottom to top}}\n"
# source: by hand; part, low corner, sizes in inches; the sums stand in the comment beside each
CASES = {
    "plain door": ("board: wood", "board", (0.0625, 0, 0.0625), (35.875, 0.75, 23.875), 0),  # less 1/16 round
    "panel door": ("frame: wood, panel: wood", "top rail", (2.0625, 0, 21.9375), (31.875, 0.75, 2), 8),
    "leg frame": ("leg: wood, rail: wood", "front rail", (1.75, 0.125, 20), (32.5, 0.75, 4), 8),  # 36 - 3 1/2
    "lid": (
        "board: wood, batten: wood",
        "left batten",
        (3, 1.5, 22.5),
        (2, 14.9375, 0.75),
        2,
    ),  # 18 - 3 - 1/16
    "top": ("board: wood", "board", (-1, -1, 23.25), (38, 20, 0.75), 0),  # 1 over all round
    "shelf": (
        "board: wood",
        "board 2",
        (0.0625, 0.125, 15.75),
        (35.875, 17.8125, 0.75),
        0,
    ),  # (24-1 1/2)/3 = 7 1/2
    "plinth": ("board: wood", "left end", (0, 0.75, 0), (0.75, 16.5, 24), 4),  # 18 - 1 1/2
    "back boards": ("board: wood", "board 2", (9, 17.25, 0), (9, 0.75, 24), 3),  # 36 / 4
    "slats": ("slat: wood", "slat 1", (0.125, 2.25, 0), (35.75, 3, 0.75), 0),  # (18 - 9) / 4 = 2 1/4
    "face frame": ("frame: wood", "bottom rail", (1.75, 0, 0), (32.5, 0.75, 1.75), 4),
    "box": ("board: wood", "bottom", (0.75, 0.75, 0.25), (34.5, 16.5, 0.25), 8),
    "drawer": ("box: wood, front: wood", "left side", (0.0625, 0.75, 0.0312), (0.75, 16.75, 23.75), 8),
    "tray": ("box: wood", "left side", (0.5118, 0.75, 0), (0.75, 16.5, 2.5), 7),  # 13 mm at the side
    "dust frame": ("front: wood, rest: wood", "panel", (2, 2, 11.875), (32, 14, 0.25), 8),
}


def in_place(small, kit, settings):
    return small(SPACE + f"parts: {{it: {{kit: {kit}, in: place, {settings}}}}}\n", head=HEAD)


def test_all_kits_are_tried():
    assert set(CASES) == set(house_kit_names())


@pytest.mark.parametrize("kit", CASES)
def test_kit(small, kit):
    settings, part, low, sizes, _ = CASES[kit]
    piece = in_place(small, kit, settings)
    found = piece.part(f"it {part}").box
    assert tuple(round(x / 25.4, 4) for x in found.low) == low
    assert tuple(round(x / 25.4, 4) for x in found.sizes) == sizes
    assert [n.message for n in piece.notices if n.must] == []


def test_a_drawer_slides_three_quarters_of_its_side(small):
    motion = in_place(small, "drawer", "box: wood, front: wood").movements[0].motion
    # source: by hand; 16 3/4 x 3/4
    assert round(motion.distance / 25.4, 4) == 12.5625


def test_a_lid_opens(small):
    motion = in_place(small, "lid", "board: wood, batten: wood, opens: 80 deg").movements[0].motion
    assert motion.angle == 80
    assert motion.axis == (-1.0, 0.0, 0.0)


def test_straight_legs(small):
    leg = in_place(small, "leg frame", "leg: wood, rail: wood, legs: straight").part("it left front leg")
    assert leg.shape.taper.to == pytest.approx(leg.box.size(Axis.WIDE))


@pytest.mark.parametrize(
    ("settings", "foot"),
    [
        # source: by hand; as said; the kit's own 1 1/8; no thicker at the foot than a leg of 1
        ("leg size: 2 1/2, taper: 1 1/2", 1.5),
        ("leg size: 2 1/2", 1.125),
        ("leg size: 1", 1.0),
    ],
)
def test_a_setting_may_be_called_as_a_key_of_a_part(small, settings, foot):
    leg = in_place(small, "leg frame", f"leg: wood, rail: wood, {settings}").part("it left front leg")
    assert leg.shape.taper.to / 25.4 == pytest.approx(foot)


def test_a_key_of_a_part_means_nothing_beside_a_kit(small):
    with pytest.raises(ReadError, match='the kit "leg frame" has no setting "grain"'):
        in_place(small, "leg frame", "leg: wood, rail: wood, grain: high")


def test_more_shelves(small):
    piece = in_place(small, "shelf", "board: wood, count: 3 pcs")
    # source: by hand; (24 - 2 1/4) / 4 = 5 7/16
    assert round(piece.part("it board 1").box.low[2] / 25.4, 4) == 5.4375
