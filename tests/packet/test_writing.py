"""Files: whole or not at all, read back by other programs, the same each time."""

from __future__ import annotations

import csv
from io import StringIO
from pathlib import Path

import pytest
import trimesh

import scantling.packet.files as files
from scantling.packet import write_packet
from scantling.packet.files import write_whole
from scantling.packet.tables import parts_csv, shopping_csv
from scantling.packet.writing import file_name


def rows(content):
    return list(csv.DictReader(StringIO(content.decode("utf-8-sig"))))


def test_packet_is_one_folder_of_files(bench, tmp_path):
    written = write_packet(bench, tmp_path / "new" / "out")
    names = {path.name for path in written}
    assert {"boot-bench.pdf", "boot-bench.html", "boot-bench.glb"} <= names
    assert all(path.stat().st_size > 200 for path in written)
    assert {path.name for path in (tmp_path / "new" / "out").iterdir()} == names


def test_writing_twice_gives_the_same_bytes(bench, tmp_path):
    first = {p.name: p.read_bytes() for p in write_packet(bench, tmp_path) if p.suffix != ".step"}
    second = {p.name: p.read_bytes() for p in write_packet(bench, tmp_path) if p.suffix != ".step"}
    assert first == second


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


def test_model_opens_elsewhere(bench, tmp_path):
    path = next(p for p in write_packet(bench, tmp_path) if p.suffix == ".glb")
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
