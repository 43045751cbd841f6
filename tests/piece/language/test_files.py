"""Files that follow others, kits, build records: what is merged, and what is refused."""

from __future__ import annotations

import pytest

from scantling.errors import ReadError
from scantling.piece.language import (
    MappingNode,
    Scalar,
    SequenceNode,
    read_piece,
    read_piece_text,
    read_record,
    read_record_text,
    reread,
)
from scantling.piece.model import Axis
from scantling.quantity import LengthUnit


def plain(node):
    """A tree as plain lists and dicts."""
    if isinstance(node, Scalar):
        return node.text
    if isinstance(node, SequenceNode):
        return [plain(item) for item in node]
    return {entry.name: plain(entry.value) for entry in node}


@pytest.fixture
def folder(tmp_path):
    """Write files into a folder of their own, in a folder of their own."""
    inner = tmp_path / "pieces"
    inner.mkdir()

    def write(**texts):
        for name, text in texts.items():
            (inner / f"{name}.yaml").write_text(text, encoding="utf-8")
        return inner

    return write


def test_the_nearer_file_wins_by_name_and_lists_of_entries_are_added_to(folder):
    here = folder(
        far="""
piece: Far
units: mm
sizes: {a: 1, b: 2}
parts:
  leg: {wide: 3, deep: 4, work: [{chamfer: bottom}], copies: {row: up, count: 2}}
  box: {parts: {side: {wide: 1}, lid: {wide: 2}}}
joints: [{join: leg, to: box}]
poses: {open: [one, two]}
holds: {machine: {wide: 16, on: box}}
""",
        near="""
piece: Near
units: inches
follows: far.yaml
sizes: {b: 5, c: 6}
parts:
  leg: {wide: 7, work: [{chamfer: top}], copies: {ring: 3}}
  box: {parts: {lid: {deep: 8}}}
joints: [{join: leg, to: floor}]
poses: {open: [three]}
holds: {machine: {wide: 15}}
""",
    )
    document = read_piece(here / "near.yaml")
    tree = plain(document.root)
    # source: by hand, section 2.3 of the language on paper
    assert tree["piece"] == "Near"
    assert tree["sizes"] == {"a": "1", "b": "5", "c": "6"}
    assert tree["parts"]["leg"] == {
        "wide": "7",
        "deep": "4",
        "work": [{"chamfer": "bottom"}, {"chamfer": "top"}],
        "copies": {"ring": "3"},
    }
    assert tree["parts"]["box"] == {"parts": {"side": {"wide": "1"}, "lid": {"wide": "2", "deep": "8"}}}
    assert tree["joints"] == [{"join": "leg", "to": "box"}, {"join": "leg", "to": "floor"}]
    assert tree["poses"] == {"open": ["three"]}
    assert tree["holds"] == {"machine": {"wide": "15", "on": "box"}}
    assert plain(document.own)["sizes"] == {"b": "5", "c": "6"}
    assert [far.file for far in document.follows] == ["far.yaml"]


def test_every_scalar_keeps_its_file_s_unit_and_place(folder):
    here = folder(
        far="piece: Far\nunits: mm\nsizes: {a: 1}\n",
        near="piece: Near\nunits: inches\nfollows: far.yaml\nsizes: {b: 5}\n",
    )
    sizes = read_piece(here / "near.yaml").get("sizes")
    a, b = sizes.get("a"), sizes.get("b")
    assert (a.unit, str(a.place)) == (LengthUnit.MM, "far.yaml:3:12")
    assert (b.unit, str(b.place)) == (LengthUnit.INCHES, "near.yaml:4:12")


def test_a_file_without_a_unit_takes_that_of_the_file_it_follows(folder):
    here = folder(far="piece: Far\nunits: mm\n", near="piece: Near\nfollows: far.yaml\nsizes: {b: 5}\n")
    document = read_piece(here / "near.yaml")
    assert document.unit is LengthUnit.MM
    assert document.get("sizes").get("b").unit is LengthUnit.MM


def test_leave_out_drops_by_name(folder):
    here = folder(
        far="piece: Far\nunits: mm\n"
        "parts: {leg: {wide: 1}, lid: {parts: {lip: {wide: 1}, board: {wide: 2}}}}\n"
        "finish: {oil: 2 coats, over: all}\n",
        near="piece: Near\nfollows: far.yaml\nleave out: [Leg, lid lip, oil]\nparts: {leg: {deep: 3}}\n",
    )
    document = read_piece(here / "near.yaml")
    assert plain(document.get("parts")) == {"lid": {"parts": {"board": {"wide": "2"}}}, "leg": {"deep": "3"}}
    assert plain(document.get("finish")) == {"over": "all"}
    assert document.left_out == ("leg", "lid lip", "oil")


def test_leaving_out_what_is_not_there(folder, refused):
    here = folder(far="piece: Far\nunits: mm\nparts: {leg: {wide: 1}}\n")
    text = "piece: Near\nfollows: far.yaml\nleave out: [‸legs]\n"
    error = refused(lambda t: read_piece_text(t, "near.yaml", here), text)
    assert 'nothing called "legs"' in str(error)
    assert 'nearest: "leg"' in str(error)


def test_circles_are_shown(folder):
    here = folder(
        a="piece: A\nunits: mm\nfollows: b.yaml\n",
        b="piece: B\nunits: mm\nfollows: a.yaml\n",
        own="piece: C\nunits: mm\nkits: {mine: own.yaml}\n",
    )
    with pytest.raises(ReadError, match=r"a\.yaml -> b\.yaml -> a\.yaml") as caught:
        read_piece(here / "a.yaml")
    assert str(caught.value.place) == "b.yaml:3:10"
    with pytest.raises(ReadError, match=r"own\.yaml -> own\.yaml"):
        read_piece(here / "own.yaml")


def test_long_chains_end(folder):
    files = {f"f{n}": f"piece: A\nunits: mm\nfollows: f{n + 1}.yaml\n" for n in range(12)}
    here = folder(**files, f12="piece: A\nunits: mm\n")
    with pytest.raises(ReadError, match="files follow one another"):
        read_piece(here / "f0.yaml")


def test_the_maker_s_own_kits(folder):
    here = folder(
        mine="piece: Mine\nunits: mm\nparts: {door: {kit: plain}}\nkits: {plain: plain.yaml}\n",
        plain="piece: Plain\nunits: mm\nparts: {leaf: {wide: 3}}\n",
        use="piece: Use\nunits: mm\nkits: {cupboard: mine.yaml}\nparts: {g: {parts: {c: {kit: Cupboard}}}}\n",
    )
    document = read_piece(here / "use.yaml")
    assert list(document.kits) == ["cupboard"]
    assert list(document.kits["cupboard"].kits) == ["plain"]
    assert document.kits["cupboard"].unit is LengthUnit.MM


def test_kits_come_with_a_followed_file(folder):
    here = folder(
        mine="piece: Mine\nunits: mm\n",
        far="piece: Far\nunits: mm\nkits: {box: mine.yaml}\nparts: {b: {kit: box}}\n",
        near="piece: Near\nfollows: far.yaml\n",
    )
    assert list(read_piece(here / "near.yaml").kits) == ["box"]


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("gone.yaml", 'there is no file "gone.yaml"'),
        ("fra.yaml", 'nearest: "far.yaml"'),
        ("far.txt", "name a file that ends in .yaml"),
        ("/etc/far.yaml", "no place near this file"),
        ("~/far.yaml", "no place near this file"),
        ("..\\far.yaml", "no place near this file"),
        ("../../far.yaml", "lies too far"),
        ("../sub/../../far.yaml", "lies too far"),
        ("folder.yaml", "cannot be opened"),
    ],
)
def test_files_that_cannot_be_followed(folder, refused, name, says):
    here = folder(far="piece: Far\nunits: mm\n")
    (here / "folder.yaml").mkdir()
    text = f"piece: Near\nfollows: ‸{name}\n"
    assert says in str(refused(lambda t: read_piece_text(t, "near.yaml", here), text))


def test_a_sibling_folder_may_be_followed(folder):
    here = folder()
    styles = here.parent / "styles"
    styles.mkdir()
    (styles / "hall.yaml").write_text("style: Hall\nunits: mm\nsizes: {a: 1}\n", encoding="utf-8")
    document = read_piece_text("piece: A\nfollows: ../styles/hall.yaml\n", "a.yaml", here)
    assert str(document.get("sizes").get("a").place) == "../styles/hall.yaml:3:12"
    assert "style" not in document.root


def test_a_link_out_of_the_folder_is_not_followed(folder, tmp_path_factory):
    here = folder()
    far = tmp_path_factory.mktemp("elsewhere") / "far.yaml"
    far.write_text("piece: Far\nunits: mm\n", encoding="utf-8")
    (here / "far.yaml").symlink_to(far)
    with pytest.raises(ReadError, match="lies too far"):
        read_piece_text("piece: A\nfollows: far.yaml\n", "a.yaml", here)


def test_files_that_are_no_text(tmp_path):
    path = tmp_path / "a.yaml"
    path.write_bytes("piece: A\nnote: é".encode() + b"\xff\xfe")
    with pytest.raises(ReadError, match="UTF-8") as caught:
        read_piece(path)
    # source: by hand; the eighth character of line 2
    assert str(caught.value.place) == "a.yaml:2:8"
    path.write_bytes(b"x" * 4_000_001)
    with pytest.raises(ReadError, match="too long"):
        read_piece(path)
    with pytest.raises(ReadError, match="there is no file"):
        read_piece(tmp_path / "b.yaml")


def test_a_mark_at_the_start_of_a_file_is_not_part_of_it(tmp_path):
    path = tmp_path / "a.yaml"
    path.write_bytes(b"\xef\xbb\xbfpiece: A\nunits: mm\n")
    assert str(read_piece(path).get("piece").place) == "a.yaml:1:8"


def test_the_ten_pieces_the_style_and_the_refit(examples):
    names = sorted(path.name for path in examples.glob("*.yaml") if ".build" not in path.name)
    documents = {name: read_piece(examples / name) for name in names}
    assert len(documents) >= 12
    refit = documents["sewing-desk-refit.yaml"]
    # source: by hand, section 4 of the language on paper
    assert refit.get("overall").get("wide").text == "35"
    assert refit.get("overall").get("deep").text == "17"
    assert refit.get("sizes").get("leg size").text == "40 mm"
    assert refit.get("sizes").get("seam").place.file == "hall-pieces.yaml"
    assert [far.file for far in refit.follows] == ["sewing-desk.yaml", "hall-pieces.yaml"]
    assert len(refit.get("joints")) == len(documents["sewing-desk.yaml"].get("joints")) + 1
    assert isinstance(refit.get("holds").get("machine"), MappingNode)
    assert sorted(documents["chest-of-drawers.yaml"].kits) == ["drawer", "dust frame"]


def test_a_build_record(examples):
    record = read_record(examples / "bed-first-one.build.yaml")
    # source: by hand; 80 3/8 in = 2041.525 mm, 2 11/16 in = 68.2625 mm
    assert record.name == "Bed with slats, first one"
    assert [(m.part, m.sizes, m.cut) for m in record.measured] == [
        ("left side rail", ((Axis.DEEP, 2041.525),), True),
        ("left foot post", ((Axis.WIDE, 68.2625),), True),
    ]
    assert str(record.measured[1].place) == "bed-first-one.build.yaml:3:1"


def test_a_record_in_millimetres():
    record = read_record_text("build: A\nleg: {wide: 40, high: 2 in}\n", "a.yaml", LengthUnit.MM)
    assert record.measured[0].sizes == ((Axis.WIDE, 40.0), (Axis.HIGH, 50.8))
    assert not record.measured[0].cut


@pytest.mark.parametrize(
    ("marked", "says"),
    [
        ("‸leg: {wide: 3}", "does not say what was built"),
        ("build: A\nleg: {‸wdie: 3}", 'nearest: "wide"'),
        ("build: A\nleg: {wide: ‸thick}", "is not a number"),
        ("build: A\nleg: {wide: 3 ‸+ 1}", "not expected"),
        ("build: A\nleg: {wide: ‸0}", "more than nothing"),
        ("build: A\nleg: {cut: ‸maybe}", "known: done"),
        ("build: A\n‸2 leg: {wide: 3}", "a name is wanted"),
    ],
)
def test_slips_in_records(refused, marked, says):
    assert says in str(refused(lambda text: read_record_text(text, "a.yaml"), marked))


def test_a_piece_is_read_again_with_other_texts_and_without_the_disk(tmp_path):
    style = tmp_path / "styles"
    style.mkdir()
    (style / "a.yaml").write_text("style: a\nunits: inches\nsizes: {b: 1}\n", encoding="utf-8")
    text = "piece: p\nfollows: styles/a.yaml\nunits: inches\noverall: {wide: 1, deep: 1, high: 1}\n"
    (tmp_path / "p.yaml").write_text(text, encoding="utf-8")
    document = read_piece(tmp_path / "p.yaml")
    assert list(document.files) == ["p.yaml", "styles/a.yaml"]
    (style / "a.yaml").unlink()
    again = reread(document, {"styles/a.yaml": document.files["styles/a.yaml"].text.replace("1", "2")})
    assert again.get("sizes").get("b").text == "2"
    assert again.files["styles/a.yaml"].path == style / "a.yaml"
    assert (
        reread(document, {"p.yaml": text.replace("wide: 1", "wide: 3")}).get("overall").get("wide").text
        == "3"
    )
