"""New pieces, pieces taken out, pieces put back."""

from __future__ import annotations

import json

import pytest

from scantling.desk.keeping import begin_following, begin_like, remove, removed, restore
from scantling.errors import ScantlingError
from scantling.piece.language import read_piece
from scantling.starting import example_names


@pytest.mark.parametrize("like", example_names())
def test_every_example_begins_a_piece_that_is_read(keeper, home, like):
    piece = begin_like(keeper, "My own piece", like)
    assert (piece.slug, piece.title, piece.broken) == ("my-own-piece", "My own piece", False)
    assert read_piece(home / piece.file).own.get("piece").text == "My own piece"
    assert keeper.folder.shop_file() == "shop.yaml"


def test_a_shop_and_a_style_that_are_there_stay_as_they_are(keeper, home):
    (home / "shop.yaml").write_text("shop: Mine\n")
    (home / "hall-pieces.yaml").write_text("style: Mine\nunits: inches\n")
    begin_like(keeper, "Desk", "sewing-desk")
    assert (home / "shop.yaml").read_text() == "shop: Mine\n"
    assert (home / "hall-pieces.yaml").read_text() == "style: Mine\nunits: inches\n"


def test_beginning_can_be_undone(keeper, home):
    before = {path.name for path in home.glob("*.yaml")}
    piece = begin_like(keeper, "Desk", "sewing-desk")
    keeper.undo(piece.slug)
    assert {path.name for path in home.glob("*.yaml")} == before


@pytest.mark.parametrize(
    "name", ["Bench two", 'Bench "A" # 1', "<script>alert(1)</script>", "Ünï ½", "../../etc/passwd", "a: b"]
)
def test_a_copy_that_follows_is_as_the_other(keeper, home, name):
    (home / "bench.yaml").write_text("piece: Bench\nunits: inches\nsizes: {leg: 1 5/8}\n")
    piece = begin_following(keeper, name, "bench")
    assert (piece.title, piece.follows) == (name, "bench.yaml")
    assert (home / piece.file).read_text() == (
        f'piece: {json.dumps(name, ensure_ascii=False)}\nfollows: "bench.yaml"\n'
    )
    document = read_piece(home / piece.file)
    assert document.root.get("piece").text == name
    assert document.root.get("sizes").get("leg").text == "1 5/8"


def test_a_name_that_is_taken_gets_a_number(keeper):
    files = [begin_following(keeper, "Bench", "stool").file for _ in range(3)]
    assert files == ["bench-2.yaml", "bench-3.yaml", "bench-4.yaml"]


@pytest.mark.parametrize(("name", "file"), [("Shop", "shop-piece.yaml"), ("CON", "con-piece.yaml")])
def test_names_with_another_meaning_are_avoided(keeper, name, file):
    assert begin_following(keeper, name, "stool").file == file


def test_long_names_make_short_files(keeper):
    piece = begin_following(keeper, "A bench " * 10, "stool")
    assert len(piece.file) <= 65
    assert piece.title == ("A bench " * 10).strip()


@pytest.mark.parametrize(
    ("name", "slug", "said"),
    [
        ("???", "bench", "no letters"),
        ("x" * 101, "bench", "at most"),
        ("New", "nowhere", "no piece of that name"),
    ],
)
def test_what_cannot_begin_is_told(keeper, home, name, slug, said):
    before = sorted(home.iterdir())
    with pytest.raises(ScantlingError, match=said):
        begin_following(keeper, name, slug)
    assert sorted(home.iterdir()) == before


def test_an_example_that_is_not_there_is_told(keeper):
    with pytest.raises(ScantlingError, match="no example"):
        begin_like(keeper, "New", "nowhere")


def test_a_piece_taken_out_is_kept_with_its_record(keeper, home):
    bench = (home / "bench.yaml").read_bytes()
    (home / "bench.build.yaml").write_text("build: Bench\n")
    keeper.noticed()
    out = remove(keeper, "bench")
    assert keeper.folder.piece("bench") is None
    assert not (home / "bench.build.yaml").exists()
    assert {one.file for one in removed(keeper.folder)} == {"bench.yaml", "bench.build.yaml"}
    assert (home / ".scantling" / "removed" / out[0].name).read_bytes() == bench
    assert (keeper.noticed(), keeper.noticed()) == ((), ())


def test_a_piece_taken_out_is_put_back(keeper, home):
    bench = (home / "bench.yaml").read_bytes()
    (out,) = remove(keeper, "bench")
    assert restore(keeper, out.name).slug == "bench"
    assert (home / "bench.yaml").read_bytes() == bench
    assert removed(keeper.folder) == ()
    with pytest.raises(ScantlingError, match="not kept any more"):
        restore(keeper, out.name)


def test_taking_out_can_be_undone(keeper, home):
    bench = (home / "bench.yaml").read_bytes()
    remove(keeper, "bench")
    assert keeper.history("bench").undo_words == "Undo: Bench removed"
    keeper.undo("bench")
    assert (home / "bench.yaml").read_bytes() == bench


def test_a_piece_that_is_no_text_is_taken_out_and_put_back_byte_for_byte(keeper, home):
    (home / "bytes.yaml").write_bytes(b"\xff\x00\xfe")
    (out,) = remove(keeper, "bytes")
    assert not (home / "bytes.yaml").exists()
    restore(keeper, out.name)
    assert (home / "bytes.yaml").read_bytes() == b"\xff\x00\xfe"


def test_putting_back_takes_no_other_files_place(keeper, home):
    (out,) = remove(keeper, "bench")
    (home / "bench.yaml").write_text("piece: Another\n")
    with pytest.raises(ScantlingError, match="already"):
        restore(keeper, out.name)
    assert (home / "bench.yaml").read_text() == "piece: Another\n"
    assert removed(keeper.folder) == (out,)


def test_only_what_was_taken_out_is_put_back(keeper, home):
    kept = home / ".scantling" / "removed"
    kept.mkdir(parents=True)
    (kept / "20260101-000000-000000 .hidden.yaml").write_text("x")
    (kept / "stray.yaml").write_text("x")
    (kept / "20269999-000000-000000 bad.yaml").write_text("x")
    assert removed(keeper.folder) == ()
    for name in ("../../bench.yaml", "stray.yaml"):
        with pytest.raises(ScantlingError, match="not kept"):
            restore(keeper, name)


def test_a_piece_that_is_not_there_cannot_be_taken_out(keeper):
    with pytest.raises(ScantlingError, match="no piece of that name"):
        remove(keeper, "../bench")


def test_a_page_offers_every_step_back_but_the_one_that_began_its_piece(keeper, home):
    piece = begin_like(keeper, "Desk", "sewing-desk")
    assert keeper.offered(piece.slug).done == ()
    text = (home / piece.file).read_text()
    keeper.write(piece.slug, "a note", {piece.file: (text, text + "# a note\n")})
    assert [step.what for step in keeper.offered(piece.slug).done] == ["a note"]
