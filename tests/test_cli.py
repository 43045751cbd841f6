"""Every verb as a maker runs it: what is printed, what is written, and how it ends."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Callable
from importlib.resources import files
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from scantling import __version__, starting
from scantling.cli import app
from scantling.packet import writing

ROOT = Path(__file__).parents[1]
INSIDE = Path(str(files("scantling") / "examples"))
EXAMPLES = INSIDE if INSIDE.is_dir() else ROOT / "examples"
SHELF = """piece: One shelf
units: inches
overall: {wide: 24, deep: 8, high: 12}
materials: {board: pine 1x8}
parts:
  shelf: {of: board, wide: left to right, deep: broad back from front, high: thick down from top}
  foot: {of: board, wide: thick inward from left, deep: same as shelf, high: floor to bottom of shelf,
    copies: left and right}
joints: [{join: foot, to: shelf, with: dowels}]
"""
SHOP = """shop: A bench and a hand saw
units: inches
lumber:
  pine 1x8:
    L1: 96, on hand 2
machines: {hand saw: kerf 1/32, drill: yes, hand plane: yes}
"""


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A maker's folder with a small piece and its shop, and standing elsewhere."""
    home = tmp_path / "shed"
    home.mkdir()
    (home / "shelf.yaml").write_text(SHELF, encoding="utf-8")
    (home / "shop.yaml").write_text(SHOP, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return home


@pytest.fixture
def run() -> Callable[..., Result]:
    def call(*words: object) -> Result:
        result = CliRunner().invoke(app, [str(word) for word in words])
        assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
        assert "Traceback" not in result.output
        return result

    return call


# begin


def test_begin_lists_the_examples_that_have_a_shop(run) -> None:
    listed = run("begin")
    assert listed.exit_code == 0
    assert listed.output.split() == sorted(path.stem for path in (EXAMPLES / "shops").glob("*.yaml"))


@pytest.mark.parametrize("like", starting.example_names())
def test_begin_copies_an_example_with_what_it_needs(run, tmp_path: Path, like: str) -> None:
    from scantling.piece import read_piece, resolve
    from scantling.shop import facts_of, read_shop

    begun = run("begin", "My own", "--like", like, "--in", tmp_path / "new")
    assert begun.exit_code == 0, begun.output
    piece = resolve(
        read_piece(tmp_path / "new" / "my-own.yaml"), facts_of(read_shop(tmp_path / "new" / "shop.yaml"))
    )
    assert piece.name == "My own"


def test_begin_overwrites_nothing(run, tmp_path: Path) -> None:
    (tmp_path / "my-own.yaml").write_text("mine", encoding="utf-8")
    refused = run("begin", "My own", "--in", tmp_path)
    assert refused.exit_code == 2
    assert "exists already" in refused.output
    assert [path.name for path in tmp_path.iterdir()] == ["my-own.yaml"]
    assert (tmp_path / "my-own.yaml").read_text(encoding="utf-8") == "mine"


@pytest.mark.parametrize(
    "name", ["../../escape", "a/b", "..", "/etc/x", "a\\b", "nul\x00l", "x: [", '"quo"ted', "é🪵 ü"]
)
def test_begin_keeps_hostile_names_in_their_folder(run, tmp_path: Path, name: str) -> None:
    from scantling.piece import read_piece

    home = tmp_path / "deep" / "home"
    begun = run("begin", name, "--like", "bookcase", "--in", home)
    made = [path for path in tmp_path.rglob("*") if path.is_file()]
    assert all(path.parent == home for path in made)
    if begun.exit_code == 0:
        own = next(path for path in made if path.name not in ("shop.yaml",))
        assert read_piece(own).get("piece") is not None
    else:
        assert begun.exit_code == 2
        assert made == []


def test_begin_names_the_examples_there_are(run, tmp_path: Path) -> None:
    refused = run("begin", "x", "--like", "sofa", "--in", tmp_path)
    assert refused.exit_code == 2
    assert 'no example is called "sofa"' in refused.output
    assert "sewing-desk" in refused.output


# check, cuts, parts, plan


@pytest.mark.parametrize("verb", ["check", "cuts", "parts"])
def test_a_sound_piece_ends_well_in_words_and_in_data(run, folder: Path, verb: str) -> None:
    told = run(verb, folder / "shelf.yaml")
    data = json.loads(run(verb, folder / "shelf.yaml", "--json").stdout)
    assert told.exit_code == 0, told.output
    assert told.output.strip()
    assert data["piece"] == "One shelf"
    assert run(verb, folder / "shelf.yaml", "--quiet").output == ""


def test_the_parts_are_those_of_the_file(run, folder: Path) -> None:
    parts = json.loads(run("parts", folder / "shelf.yaml", "--json").stdout)["parts"]
    assert {part["name"]: part["quantity"] for part in parts} == {"shelf": 1, "foot": 2}
    # source: exact; the shelf is 24 in long
    assert next(part for part in parts if part["name"] == "shelf")["length"] == pytest.approx(24 * 25.4)


def test_looking_longer_tells_what_is_proven(run) -> None:
    files = (EXAMPLES / "four-legged-stool.yaml", "--shop", EXAMPLES / "shops" / "four-legged-stool.yaml")
    quick, longer = run("cuts", *files), run("cuts", *files, "--seconds", 5)
    assert "no plan for the same money weighs less than" not in quick.output.replace("\n    ", " ")
    assert "no plan for the same money weighs less than" in longer.output.replace("\n    ", " ")
    assert "sawing and milling, set-up by set-up" in quick.output
    assert "every blank of this plan comes out in" in quick.output.replace("\n    ", " ")
    assert run("cuts", *files, "--seconds", 0).exit_code == 2


def test_cuts_name_the_board_each_cut_and_what_falls_off(run, folder: Path) -> None:
    told = run("cuts", folder / "shelf.yaml").output
    assert "Stick L1" in told
    assert "crosscut" in told
    assert "blank 1" in told


def test_a_must_fix_finding_ends_in_1(run, folder: Path) -> None:
    (folder / "shop.yaml").write_text(
        SHOP.replace("L1: 96, on hand 2", "L1: 20, on hand 1"), encoding="utf-8"
    )
    checked = run("check", folder / "shelf.yaml")
    assert checked.exit_code == 1
    assert "must fix" in checked.output
    out = folder / "out"
    assert run("plan", folder / "shelf.yaml", "--out", out, "--quiet").exit_code == 1
    assert run("plan", folder / "shelf.yaml", "--out", out, "--quiet", "--allow-must-fix").exit_code == 0


def test_plan_writes_what_it_says(run, folder: Path) -> None:
    made = run("plan", folder / "shelf.yaml", "--out", folder / "out", "--paper", "A4", "--units", "mm")
    assert made.exit_code == 0, made.output
    names = {path.suffix for path in (folder / "out").iterdir()}
    assert {".pdf", ".html", ".csv", ".glb"} <= names
    assert "millimetres" in made.output
    said = "".join(made.output.split())
    assert all("".join(str(path).split()) in said for path in (folder / "out").iterdir())
    page = next((folder / "out").glob("*.pdf"))
    from pypdf import PdfReader

    box = PdfReader(page).pages[0].mediabox
    # source: ISO 216; A4 is 210 x 297 mm
    assert (round(float(box.width) / 72 * 25.4), round(float(box.height) / 72 * 25.4)) == (210, 297)


def test_a_record_of_what_was_measured_is_planned_with(run) -> None:
    words = (EXAMPLES / "bed-with-slats.yaml", "--shop", EXAMPLES / "shops" / "bed-with-slats.yaml")
    as_drawn = json.loads(run("parts", *words, "--json").stdout)
    as_built = json.loads(
        run("parts", *words, "--record", EXAMPLES / "bed-first-one.build.yaml", "--json").stdout
    )
    assert as_drawn["parts"] != as_built["parts"]


@pytest.mark.parametrize(
    ("option", "value", "told"), [("--paper", "a5", "letter or a4"), ("--units", "feet", "inches or mm")]
)
def test_an_option_that_will_not_do_is_told_before_the_work(
    run, folder: Path, option: str, value: str, told: str
) -> None:
    refused = run("plan", folder / "shelf.yaml", "--out", folder / "out", option, value)
    assert refused.exit_code == 2
    assert told in refused.output
    assert not (folder / "out").exists()


# what cannot be used


def _no_file(folder: Path) -> None:
    (folder / "shelf.yaml").unlink()


def _a_folder(folder: Path) -> None:
    (folder / "shelf.yaml").unlink()
    (folder / "shelf.yaml").mkdir()


def _broken(folder: Path) -> None:
    (folder / "shelf.yaml").write_text(SHELF.replace("{wide: 24", "{wide: [24"), encoding="utf-8")


def _not_text(folder: Path) -> None:
    (folder / "shelf.yaml").write_bytes(SHELF.encode() + b"\xff\xfe\x00")


def _empty(folder: Path) -> None:
    (folder / "shelf.yaml").write_text("", encoding="utf-8")


def _shop_gone(folder: Path) -> None:
    (folder / "shop.yaml").unlink()
    (folder / "shop.yaml").mkdir()


def _shop_not_text(folder: Path) -> None:
    (folder / "shop.yaml").write_bytes(b"\xff\xfe")


@pytest.mark.parametrize("verb", ["check", "plan", "cuts", "parts"])
@pytest.mark.parametrize("spoil", [_no_file, _a_folder, _broken, _not_text, _empty, _shop_not_text])
def test_what_cannot_be_used_ends_in_2_and_a_place(run, folder: Path, spoil, verb: str) -> None:
    spoil(folder)
    refused = run(verb, folder / "shelf.yaml", "--json")
    assert refused.exit_code == 2
    assert refused.stdout == ""
    assert refused.stderr.strip()


def test_the_words_meant_are_marked_under_their_line_from_anywhere(run, folder: Path) -> None:
    (folder / "shelf.yaml").write_text(SHELF.replace("bottom of shelf", "bottom of shlef"), encoding="utf-8")
    message, line, mark = run("check", folder / "shelf.yaml").stderr.splitlines()
    assert message.startswith("shelf.yaml:7:")
    at = mark.index("^")
    assert line[at : at + mark.count("^")] == "shlef"


def test_a_shop_s_line_is_shown_too(run, folder: Path) -> None:
    (folder / "shop.yaml").write_text(SHOP.replace("kerf 1/32", "kref 1/32"), encoding="utf-8")
    refused = run("check", folder / "shelf.yaml")
    assert "shop.yaml:6:" in refused.stderr
    assert "^^" in refused.stderr


@pytest.mark.skipif(
    os.name == "nt" or not hasattr(os, "geteuid") or os.geteuid() == 0, reason="root may write anywhere"
)
def test_a_folder_that_may_not_be_written_is_told(run, folder: Path) -> None:
    locked = folder / "locked"
    locked.mkdir(mode=0o500)
    assert run("plan", folder / "shelf.yaml", "--out", locked / "out").exit_code == 2


def test_a_file_where_the_folder_should_be_is_told(run, folder: Path) -> None:
    (folder / "out").write_text("a file", encoding="utf-8")
    refused = run("plan", folder / "shelf.yaml", "--out", folder / "out")
    assert refused.exit_code == 2
    assert "out" in refused.stderr
    assert (folder / "out").read_text(encoding="utf-8") == "a file"


def test_a_failure_midway_leaves_the_packet_before_it_whole(run, folder: Path, monkeypatch) -> None:
    out = folder / "out"
    assert run("plan", folder / "shelf.yaml", "--out", out).exit_code == 0
    before = {path.name: path.read_bytes() for path in out.iterdir()}

    def full(*_: object, **__: object) -> bytes:
        raise OSError(28, "No space left on device", "packet")

    monkeypatch.setattr(writing, "packet_page", full)
    (folder / "shelf.yaml").write_text(SHELF.replace("wide: 24", "wide: 20"), encoding="utf-8")
    refused = run("plan", folder / "shelf.yaml", "--out", out)
    assert refused.exit_code == 2
    assert "No space left" in refused.stderr
    assert {path.name: path.read_bytes() for path in out.iterdir()} == before


# as a program of its own


def _program(*words: str, **settings: str) -> subprocess.CompletedProcess[bytes]:
    known = {**os.environ, **settings}
    return subprocess.run(
        [sys.executable, "-m", "scantling.cli", *words],
        capture_output=True,
        env=known,
        timeout=60,
        check=False,
    )


def test_the_program_tells_its_version() -> None:
    assert _program("--version").stdout.decode().strip() == __version__


def test_the_program_ends_in_2_for_no_such_file(tmp_path: Path) -> None:
    done = _program("check", str(tmp_path / "none.yaml"))
    assert done.returncode == 2
    assert b"there is no file" in done.stderr
    assert b"Traceback" not in done.stderr


def test_a_screen_without_signs_is_no_trouble(folder: Path) -> None:
    done = _program("cuts", str(folder / "shelf.yaml"), PYTHONIOENCODING="ascii")
    assert done.returncode == 0, done.stderr
    assert b"?" in done.stdout


def test_an_unknown_verb_ends_in_2() -> None:
    assert _program("saw").returncode == 2
