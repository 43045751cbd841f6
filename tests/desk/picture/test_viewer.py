"""The viewer in a real browser: picking, pulling apart, cutting open, movements, faces, findings."""

from __future__ import annotations

import io

import numpy as np
import pytest
from PIL import Image
from playwright.sync_api import Page, expect
from tests.desk.e2e.axe import violations
from tests.desk.picture.pieces import HOSTILE, riding
from tests.desk.picture.serving import pictures_app, serving

from scantling.geometry import pose_placements, tone_named

IN_FRAMES = """() => new Promise(done => {
  requestAnimationFrame(() => requestAnimationFrame(() => done(viewer.frames)));
})"""
SET = """(slider, value) => {
  slider.value = value;
  slider.dispatchEvent(new Event('input', {bubbles: true}));
}"""
SWIPE = """() => {
  const canvas = document.querySelector('canvas');
  const { left, top } = canvas.getBoundingClientRect();
  const touch = (kind, x) => canvas.dispatchEvent(new PointerEvent(kind, {
    pointerId: 9, pointerType: 'touch', isPrimary: true, bubbles: true, cancelable: true,
    button: kind === 'pointermove' ? -1 : 0, clientX: left + x, clientY: top + 40,
  }));
  canvas.setPointerCapture = canvas.releasePointerCapture = () => {};
  touch('pointerdown', 30);
  touch('pointermove', 60);
  touch('pointermove', 90);
  touch('pointerup', 90);
}"""
COUNT_CALLS = """() => {
  window.calls = 0;
  for (const name of ['drawElements', 'drawArrays', 'drawElementsInstanced', 'drawArraysInstanced']) {
    const plain = WebGL2RenderingContext.prototype[name];
    WebGL2RenderingContext.prototype[name] = function (...all) {
      window.calls += 1;
      plain.apply(this, all);
    };
  }
}"""
PLACED = """async pose => {
  const { placements } = await import('/static/viewer/motion.js');
  const described = await (await fetch('/description/plain')).json();
  const steps = described.poses.find(one => one.name === pose).steps;
  const where = [...placements(described.movements, new Map(steps))];
  return Object.fromEntries(where.map(([name, matrix]) => [name, matrix.clone().transpose().elements]));
}"""


def settled(page: Page) -> int:
    """Frames drawn, once all that was asked for is drawn."""
    frames: int = page.evaluate(IN_FRAMES)
    return frames


def told(page: Page, name: str) -> list:
    return [detail for kind, detail in page.evaluate("() => told") if kind == name]


def seen(page: Page) -> bytes:
    settled(page)
    return page.locator(".pic-view").screenshot()


def pixels(page: Page) -> np.ndarray:
    return np.asarray(Image.open(io.BytesIO(seen(page))).convert("RGB"), dtype=int)


def middle(page: Page) -> tuple[float, float]:
    page.locator("canvas").scroll_into_view_if_needed()
    box = page.locator("canvas").bounding_box()
    assert box
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def look(page: Page, side: str) -> None:
    page.get_by_role("group", name="Turn").get_by_role("button", name=side).click()
    page.mouse.move(2, 2)  # the page may have scrolled the picture under the pointer
    settled(page)


def slide(page: Page, selector: str, value: int) -> None:
    page.locator(selector).evaluate(SET, value)
    settled(page)


def picked_at_the_middle(page: Page) -> object:
    page.evaluate("() => viewer.pick(null)")  # grips of a picked part lie over the picture
    settled(page)
    page.mouse.click(*middle(page))
    return told(page, "pick")[-1]["part"]


# --- Looking and picking ---


@pytest.mark.parametrize(("side", "part"), [("Top", "lid"), ("Right side", "right side"), ("Back", "back")])
def test_a_click_picks_the_part_in_front(opened, side, part):
    page = opened()
    page.get_by_label("Findings").uncheck()  # their marks lie over the picture
    look(page, side)
    assert picked_at_the_middle(page) == part
    expect(page.locator("#pic-name")).to_contain_text(part)
    expect(page.locator(f"#pic-parts button[data-part='{part}']")).to_have_attribute("aria-pressed", "true")


def test_a_click_beside_the_piece_lets_go(opened):
    page = opened()
    page.evaluate("() => viewer.pick('lid')")
    page.locator("canvas").click(position={"x": 3, "y": 3})
    assert told(page, "pick")[-1] == {"part": None}
    expect(page.locator("#pic-parted")).to_be_hidden()


def test_turning_by_mouse_draws_and_picks_nothing(opened):
    page = opened()
    before = seen(page)
    x, y = middle(page)
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + 60, y + 20, steps=4)
    page.mouse.up()
    assert seen(page) != before
    assert told(page, "pick") == []


def test_a_tap_picks_and_a_swipe_turns(opened):
    page = opened(has_touch=True, viewport={"width": 390, "height": 844})
    look(page, "Top")
    page.touchscreen.tap(*middle(page))
    assert told(page, "pick") == [{"part": "lid"}]
    before = seen(page)
    page.evaluate(SWIPE)
    assert seen(page) != before
    assert told(page, "pick") == [{"part": "lid"}]


def test_what_is_under_the_pointer_is_told_and_marked(opened):
    page = opened()
    look(page, "Top")
    page.mouse.move(2, 2)
    before = seen(page)
    page.mouse.move(*middle(page))
    expect(page.locator("#pic-over")).to_contain_text("lid")
    assert told(page, "hover")[-1] == {"part": "lid"}
    assert seen(page) != before


def test_keys_turn_and_home_shows_the_whole_piece(opened):
    page = opened()
    look(page, "Corner")
    whole = seen(page)
    canvas = page.get_by_role("application", name="Picture of Box by hand")
    canvas.focus()
    for key in ("+", "+", "Shift+ArrowLeft"):
        page.keyboard.press(key)
    near = seen(page)
    page.keyboard.press("Home")
    page.locator("canvas").evaluate("canvas => canvas.blur()")
    assert near != whole
    assert seen(page) == whole
    canvas.focus()
    page.keyboard.press("ArrowRight")
    page.locator("canvas").evaluate("canvas => canvas.blur()")
    assert seen(page) != whole


def test_nothing_is_drawn_while_nothing_changes(opened):
    page = opened()
    frames = settled(page)
    page.wait_for_timeout(600)
    assert page.evaluate("() => viewer.frames") == frames > 0


def test_three_hundred_parts_are_drawn_in_a_few_calls(opened):
    page = opened("many")
    page.evaluate(COUNT_CALLS)
    frames = settled(page)
    look(page, "Front")
    assert page.evaluate("() => calls / (viewer.frames - " + str(frames) + ")") <= 4


# --- Pulling apart, cutting open, hiding ---


def test_pulled_apart_and_together_again(opened):
    page = opened()
    for words in ("Findings", "What it holds"):
        page.get_by_label(words).uncheck()  # lettering is not drawn twice alike to the last point
    look(page, "Corner")
    together = seen(page)
    slide(page, "#pic-apart", 40)
    assert page.locator("#pic-apart").get_attribute("aria-valuetext") == "40 %"
    assert seen(page) != together
    slide(page, "#pic-apart", 0)
    look(page, "Corner")
    assert seen(page) == together


def cut_face(name: str) -> np.ndarray:
    """What a cut face looks like: linear colours mixed, as light is (IEC 61966-2-1)."""
    tone = np.array(tone_named(name)) / 255
    linear = np.where(tone <= 0.04045, tone / 12.92, ((tone + 0.055) / 1.055) ** 2.4)
    mixed = linear + (np.array([1.0, 0.96, 0.88]) - linear) * 0.22
    return np.where(mixed <= 0.0031308, mixed * 12.92, 1.055 * mixed ** (1 / 2.4) - 0.055) * 255


def filled(page: Page) -> int:
    return int((np.abs(pixels(page) - cut_face("cherry")).max(axis=2) <= 2).sum())


def test_a_cut_opens_the_piece_and_fills_what_it_cuts(opened):
    page = opened()
    look(page, "Top")
    assert filled(page) < 50
    page.get_by_role("button", name="From above").click()
    slide(page, "#pic-cut-at", 700)
    # source: by hand; 140 mm up, three walls 20 thick: 2 x 300 + 360 long = 19,200 of 120,000 mm²
    whole = int((np.abs(pixels(page) - pixels(page)[4, 4]).max(axis=2) > 6).sum())
    assert filled(page) / whole == pytest.approx(19_200 / 120_000, rel=0.25)
    assert page.locator("#pic-cut-at-said").text_content() == "5 1/2 in"
    assert picked_at_the_middle(page) == "tray"


def test_the_other_half_can_be_taken_away(opened):
    page = opened()
    look(page, "Right side")
    page.get_by_role("button", name="From the side").click()
    page.get_by_label("Take the other half away").check()
    assert picked_at_the_middle(page) == "right side"
    page.get_by_label("Take the other half away").uncheck()
    assert picked_at_the_middle(page) != "right side"


def test_hide_only_this_and_show_all(opened):
    page = opened()
    look(page, "Top")
    assert picked_at_the_middle(page) == "lid"
    page.get_by_role("button", name="Hide").click()
    assert picked_at_the_middle(page) == "tray"
    page.get_by_role("button", name="Only this").click()
    assert page.locator("#pic-parts .pic-out").count() == 5
    page.get_by_role("button", name="Show all parts again").click()
    assert page.locator("#pic-parts .pic-out").count() == 0
    assert picked_at_the_middle(page) == "lid"


# --- Movements ---


def values(page: Page) -> dict[str, str | None]:
    sliders = page.locator("#pic-moves input")
    return {one.get_attribute("data-movement"): one.get_attribute("aria-valuetext") for one in sliders.all()}


def test_what_must_be_open_first_opens_first(opened):
    page = opened()
    slide(page, "input[data-movement=tray]", 100)
    expect(page.locator("#pic-said")).to_have_text("Opening lid first, so that tray can move.")
    assert values(page) == {"lid": "90° of 90°", "tray": "9 13/16 in of 9\u00a027/32\u00a0in (250\u00a0mm)"}
    slide(page, "input[data-movement=lid]", 40)
    expect(page.locator("#pic-said")).to_have_text("Shutting tray first, so that lid can move.")
    assert values(page) == {"lid": "36° of 90°", "tray": "shut"}


def test_movements_are_played_one_after_another(opened):
    page = opened(reduced_motion="no-preference")
    page.evaluate(
        """() => {
          window.line = [];
          window.done = viewer.move('tray', 1).then(() => { window.done = true; });
          const look = () => {
            const far = [...document.querySelectorAll('#pic-moves input')].map(one => Number(one.value));
            line.push(far);
            if (window.done !== true) requestAnimationFrame(look);
          };
          look();
        }"""
    )
    page.wait_for_function("() => window.done === true")
    line = page.evaluate("() => line")
    assert line[-1] == [100, 100]
    assert all(lid == 100 for lid, tray in line if tray > 0)


def test_poses_are_buttons_and_sliders_follow(opened):
    page = opened()
    page.get_by_role("button", name="open", exact=True).click()
    assert values(page) == {"lid": "90° of 90°", "tray": "4 15/16 in of 9\u00a027/32\u00a0in (250\u00a0mm)"}
    expect(page.get_by_role("button", name="open", exact=True)).to_have_attribute("aria-pressed", "true")
    slide(page, "input[data-movement=tray]", 0)
    expect(page.get_by_role("button", name="open", exact=True)).to_have_attribute("aria-pressed", "false")
    page.get_by_role("button", name="at rest").click()
    assert values(page) == {"lid": "shut", "tray": "shut"}


@pytest.mark.parametrize("pose", ["all", "some"])
def test_parts_stand_where_the_plan_has_them(solid_browser, pose):
    plan = riding()
    with serving(pictures_app({"plain": plan})) as at:
        page = solid_browser.new_page()
        page.goto(at)
        found = page.evaluate(PLACED, pose)
        page.close()
    for name, placement in pose_placements(plan.piece, pose).items():
        rows = np.array(found.get(name, np.eye(4).ravel().tolist())).reshape(4, 4)
        np.testing.assert_allclose(rows[:3, :3], placement.turn, atol=1e-9)
        np.testing.assert_allclose(rows[:3, 3], placement.shift, atol=1e-6)


# --- Moving a face ---


def gripped(page: Page) -> tuple[float, float]:
    """The right side's own right face, seen from the front."""
    page.evaluate("() => viewer.pick('right side')")
    look(page, "Front")
    page.evaluate("() => viewer.farther()")
    look(page, "Corner")
    box = page.locator(".pic-grip[data-face=right]").bounding_box()
    assert box
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def test_a_face_is_dragged_in_steps_and_told_when_let_go(opened):
    page = opened()
    x, y = gripped(page)
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + 40, y + 4, steps=3)
    settled(page)
    assert "right face" in page.locator(".pic-moved").text_content()
    assert told(page, "drag") == []
    page.mouse.up()
    (drag,) = told(page, "drag")
    assert (drag["part"], drag["face"]) == ("right side", "right")
    assert drag["steps"] > 3
    assert drag["by_mm"] == pytest.approx(drag["steps"] * 25.4 / 16)
    expect(page.locator(".pic-moved")).to_be_hidden()


def test_escape_leaves_a_dragged_face_where_it_was(opened):
    page = opened()
    x, y = gripped(page)
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + 40, y)
    page.keyboard.press("Escape")
    page.mouse.up()
    assert told(page, "drag") == []


@pytest.mark.parametrize(("of", "by_mm", "words"), [("plain", 4.7625, "3/16 in"), ("metric", 3.0, "3 mm")])
def test_a_face_goes_by_keyboard_too(opened, of, by_mm, words):
    page = opened(of)
    page.locator("#pic-parts button[data-part=lid]").press("Enter")
    page.get_by_role("group", name="Move a face").get_by_role("button", name="Front").press("Enter")
    for key in ("ArrowUp", "ArrowRight", "ArrowUp", "ArrowUp", "ArrowDown"):
        page.keyboard.press(key)
    expect(page.locator("#pic-face-said")).to_have_text(f"front face {words} outward")
    page.keyboard.press("Enter")
    assert told(page, "drag") == [{"part": "lid", "face": "front", "steps": 3, "by_mm": pytest.approx(by_mm)}]


def test_a_face_goes_by_buttons_and_is_left_by_escape(opened):
    page = opened()
    page.evaluate("() => viewer.pick('lid')")
    page.get_by_role("button", name="Top").last.click()
    page.get_by_role("button", name="A step inward").click()
    expect(page.locator("#pic-face-said")).to_have_text("top face 1/16 in inward")
    page.locator("#pic-faces button[data-face=top]").press("Escape")
    expect(page.locator("#pic-steps")).to_be_hidden()
    assert told(page, "drag") == []


# --- Sizes, things held, findings, changes ---


def test_the_picked_part_has_its_sizes_in_the_picture(opened):
    page = opened()
    page.evaluate("() => viewer.pick('lid')")
    settled(page)
    labels = page.locator(".pic-size:not(.pic-moved)")
    assert sorted(labels.all_text_contents()) == [
        "11\u00a013/16\u00a0in",
        "15\u00a03/4\u00a0in",
        "25/32\u00a0in",
    ]
    assert all(label.is_visible() for label in labels.all())
    page.get_by_label("Sizes of the picked part").uncheck()
    assert not any(label.is_visible() for label in labels.all())


def test_what_is_held_is_named_and_moves_along(opened):
    page = opened()
    settled(page)
    label = page.locator(".pic-held")
    assert label.text_content() == "kettle"
    before = label.bounding_box()
    page.evaluate("() => viewer.pose('open')")
    settled(page)
    assert label.bounding_box() != before
    page.get_by_label("What it holds").uncheck()
    assert label.count() == 0


def test_a_finding_is_shown_where_it_is_and_in_its_pose(opened):
    page = opened()
    settled(page)
    assert page.locator(".pic-mark").all_text_contents() == ["1", "2"]
    page.get_by_role("button", name="the tray is tight").click()
    expect(page.locator("#pic-said")).to_have_text("Finding 2, should look: the tray is tight")
    expect(page.get_by_role("button", name="open", exact=True)).to_have_attribute("aria-pressed", "true")
    assert told(page, "finding") == [{"number": 2}]
    page.locator(".pic-mark").first.click()
    assert told(page, "finding")[-1] == {"number": 1}


def test_a_new_shape_keeps_how_one_looks_at_it(opened):
    page = opened()
    page.evaluate("() => { viewer.pick('tray'); viewer.hide('back'); viewer.apart(0.3); }")
    page.evaluate("() => viewer.cut({axis: 'deep', share: 0.4})")
    page.evaluate("() => viewer.move('lid', 0.5)")
    before = seen(page)
    page.evaluate("() => load('wider', ['right side', 'lid'])")
    expect(page.locator("#pic-said")).to_have_text("Changed: right side and lid.")
    assert seen(page) != before
    page.evaluate("() => load('plain', [])")
    assert seen(page) == before


def test_the_same_shape_need_not_be_sent_again(opened):
    page = opened()
    before = seen(page)
    page.evaluate(
        "() => fetch('/description/plain').then(one => one.json()).then(one => viewer.show(one, null))"
    )
    assert seen(page) == before


def test_a_part_that_is_gone_is_let_go(opened):
    page = opened("hostile")
    page.evaluate("name => viewer.pick(name)", HOSTILE)
    page.evaluate("() => load('plain', [])")
    expect(page.locator("#pic-parted")).to_be_hidden()


def test_a_hostile_name_stays_words(opened):
    page = opened("hostile")
    page.evaluate("name => { viewer.pick(name); viewer.hover(name); }", HOSTILE)
    expect(page.locator("#pic-name")).to_contain_text(HOSTILE)
    assert page.locator("img").count() == 0
    assert page.title() == "A picture"


# --- For all ---


@pytest.mark.parametrize("width", [1280, 820, 390])
def test_nothing_is_wider_than_the_screen_and_axe_finds_nothing(opened, width):
    page = opened(viewport={"width": width, "height": 800})
    page.evaluate("() => { viewer.pick('lid'); viewer.cut({axis: 'wide'}); viewer.hide('back'); }")
    page.locator("#pic-faces button").first.click()
    assert page.evaluate("() => document.documentElement.scrollWidth") <= width
    assert violations(page) == []


def test_axe_finds_nothing_in_the_dark(opened):
    page = opened(color_scheme="dark")
    page.evaluate("() => viewer.pick('lid')")
    assert violations(page) == []
