"""Files: whole or not at all, read back by other programs, the same each time."""

from __future__ import annotations

import csv
from io import StringIO
from pathlib import Path

import pytest
import trimesh

import scantling.files as files
import scantling.packet.writing as writing
from scantling.errors import MissingTool
from scantling.files import write_whole
from scantling.packet import write_packet
from scantling.packet.tables import parts_csv, shopping_csv
from scantling.packet.writing import file_name


def rows(content):
    return list(csv.DictReader(StringIO(content.decode("utf-8-sig"))))


@pytest.fixture(scope="module")
def written(bench, tmp_path_factory):
    """The packet, written once."""
    return write_packet(bench, tmp_path_factory.mktemp("packet") / "new" / "out")


def test_packet_is_one_folder_of_files(written):
    names = {path.name for path in written}
    assert {"boot-bench.pdf", "boot-bench.html", "boot-bench.glb", "boot-bench-parts.csv"} <= names
    assert all(path.stat().st_size > 200 for path in written)
    assert {path.name for path in written[0].parent.iterdir()} == names


def test_without_the_extra_it_says_so_and_writes_the_same_bytes(bench, written, tmp_path, monkeypatch):
    def missing(*_: object) -> None:
        raise MissingTool("STEP files need the extra")

    monkeypatch.setattr(writing, "write_step", missing)
    heard: list[str] = []
    again = write_packet(bench, tmp_path, tell=heard.append)
    assert heard == ["STEP files need the extra"]
    before = {path.name: path.read_bytes() for path in written if path.suffix != ".step"}
    assert {path.name: path.read_bytes() for path in again} == before


def test_a_failed_write_leaves_the_old_file(tmp_path: Path, monkeypatch):
    target = write_whole(tmp_path / "a.txt", b"old")

    def fail(*_: object) -> None:
        raise OSError("disk full")

    monkeypatch.setattr(files.os, "replace", fail)
    with pytest.raises(OSError, match="disk full"):
        write_whole(target, b"new")
    assert target.read_bytes() == b"old"
    assert list(tmp_path.iterdir()) == [target]


def test_parts_csv_reads_back(bench):
    table = {row["name"]: row for row in rows(parts_csv(bench))}
    assert table["side"]["quantity"] == "2"
    assert (table["side"]["left hand"], table["side"]["right hand"]) == ("1", "1")
    assert table["shelf"]["length mm"] == "825.5"  # source: by hand; 32.5 x 25.4
    assert table["shelf"]["cut length"] == "33 1/4"
    assert float(table["shelf"]["cut length mm"]) == pytest.approx(844.55, abs=0.06)


def test_shopping_csv_reads_back(bench):
    lines = rows(shopping_csv(bench))
    assert [float(line["cost"]) for line in lines] == [31.5, 5.0, 42.0]
    assert {line["currency"] for line in lines} == {"USD"}


def test_a_name_that_looks_like_a_formula_is_harmless(make_plan):
    table = rows(parts_csv(make_plan("x", "=1+2")))
    assert table[0]["name"] == "'=1+2"


def test_model_opens_elsewhere(bench, written):
    path = next(p for p in written if p.suffix == ".glb")
    scene = trimesh.load(path, force="scene")
    extents = sorted(scene.extents)
    # source: by hand; 12, 18 and 36 in, in metres
    assert extents == pytest.approx([0.3048, 0.4572, 0.9144], abs=1e-4)
    assert len(scene.geometry) == len(bench.piece.parts)


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("Boot bench", "boot-bench"),
        ("../../etc/passwd", "etc-passwd"),
        ("///", "piece"),
        ("Über 2/3", "über-2-3"),
    ],
)
def test_file_names_are_plain(name, expected):
    assert file_name(name) == expected
