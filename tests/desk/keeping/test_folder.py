"""The listing: what is what, what is passed over, and that no name leads out of the folder."""

from __future__ import annotations

import os
from datetime import UTC, datetime

import pytest

from scantling.desk.keeping import Folder
from scantling.desk.keeping.names import trouble_with
from scantling.errors import ReadError, ScantlingError

posix = pytest.mark.skipif(os.name == "nt", reason="names and links of this kind need another system")


def put(home, name, text, modified=None):
    path = home / name
    path.write_text(text, encoding="utf-8")
    if modified:
        os.utime(path, (modified, modified))
    return path


def files(listed):
    return [one.file for one in listed]


def test_files_are_told_apart_by_their_heads(home):
    put(home, "hall.yaml", "# for the hall\nstyle: Hall pieces\n")
    put(home, "bench.build.yaml", "build: Bench\nleft leg: {wide: 2}\n")
    put(home, "shop.yaml", "shop: A shed\n")
    put(home, "other-shop.yml", "shop: Another\n")
    put(home, "notes.txt", "piece: no\n")
    folder = Folder(home)
    assert set(files(folder.pieces())) == {"bench.yaml", "stool.yaml"}
    assert files(folder.styles()) == ["hall.yaml"]
    assert files(folder.builds()) == ["bench.build.yaml"]
    assert set(files(folder.shops())) == {"shop.yaml", "other-shop.yml"}


def test_newest_first(home):
    put(home, "a.yaml", "piece: A\n", 2_000_000_000)
    put(home, "b.yaml", "piece: B\n", 2_100_000_000)
    first, second, *_ = Folder(home).pieces()
    assert [first.slug, second.slug] == ["b", "a"]
    assert second.modified == datetime(2033, 5, 18, 3, 33, 20, tzinfo=UTC)  # source: exact; 2e9 s


@pytest.mark.parametrize(
    ("line", "title"),
    [
        ("piece: Hall bench   # the long one", "Hall bench"),
        ('piece: "Bench \\"A\\" # 1"   # two', 'Bench "A" # 1'),
        ("piece: 'Maker''s bench'", "Maker's bench"),
        ("'piece': Bench", "Bench"),
        ("Piece : Bench", "Bench"),
        ("{piece: Bench, units: mm}", "Bench"),
        ("piece: <script>alert(1)</script>", "<script>alert(1)</script>"),
        ("piece: Bänk №1", "Bänk №1"),
        ("piece: A#B", "A#B"),
        ("units: mm\npiece: Last", "Last"),
    ],
)
def test_titles_are_read_without_reading_the_language(home, line, title):
    put(home, "x.yaml", line + "\nparts: {broken: [")
    found = Folder(home).piece("x")
    assert (found.title, found.broken) == (title, False)


@pytest.mark.parametrize("text", ["", "piec: X\n", "piece:\n", "  piece: indented\n", "- piece: X\n"])
def test_a_file_that_says_nothing_is_listed_by_its_name(home, text):
    put(home, "x.yaml", text)
    found = Folder(home).piece("x")
    assert (found.title, found.broken) == ("x.yaml", True)


def test_a_broken_record_or_shop_is_not_among_the_pieces(home):
    put(home, "bench.build.yaml", "nothing")
    put(home, "shop.yaml", "nothing")
    folder = Folder(home)
    assert set(files(folder.pieces())) == {"bench.yaml", "stool.yaml"}
    assert [(f.title, f.broken) for f in (*folder.builds(), *folder.shops())] == [
        ("bench.build.yaml", True),
        ("shop.yaml", True),
    ]


def test_what_is_no_text_or_too_much_is_listed_and_told(home, monkeypatch):
    (home / "bytes.yaml").write_bytes(b"piece: X\nunits: \xff\xfe\n")
    (home / "huge.yaml").write_bytes(b"piece: Y\n" + b"#" * 4_000_000)
    folder = Folder(home)
    assert {(p.title, p.broken) for p in folder.pieces()} >= {("bytes.yaml", True), ("huge.yaml", True)}
    with pytest.raises(ReadError, match=r"bytes\.yaml:2:8: the file is not plain text"):
        folder.text("bytes.yaml")
    with pytest.raises(ReadError, match="too long"):
        folder.text("huge.yaml")


def test_what_follows_is_told(home):
    put(home, "mine.yaml", 'piece: Mine\nfollows: "bench.yaml"  # of the hall\n')
    assert Folder(home).piece("mine").follows == "bench.yaml"


def test_a_title_follows_its_file(home):
    folder = Folder(home)
    assert folder.piece("bench").title == "Bench"
    put(home, "bench.yaml", "piece: Long bench\n")
    assert folder.piece("bench").title == "Long bench"


def test_slugs_are_file_names_without_their_ending(home):
    put(home, "bench.yml", "piece: Other\n")
    folder = Folder(home)
    assert (folder.piece("bench").file, folder.piece("bench.yml").file) == ("bench.yaml", "bench.yml")
    assert folder.record_file("bench") == "bench.build.yaml"
    assert folder.shop_file() is None
    put(home, "shop.yaml", "shop: A shed\n")
    assert folder.shop_file() == "shop.yaml"


@pytest.mark.parametrize(
    "name", ["<script>.yaml", 'it\'s "mine".yaml', "a&b%2e.yaml", "[1] {x}.yaml", "Ü.yaml"]
)
@posix
def test_hostile_names_are_only_names(home, name):
    put(home, name, "piece: X\n")
    folder = Folder(home)
    found = folder.piece(name.removesuffix(".yaml"))
    assert found.file == name
    assert folder.text(name).text == "piece: X\n"


@posix
def test_names_that_cannot_be_shown_are_passed_over(home):
    for name in (
        b"\xff\xfe.yaml",
        b"new\nline.yaml",
        b"tab\t.yaml",
        b"l" * 240 + b".yaml",
        b"back\\slash.yaml",
    ):
        with open(os.path.join(os.fsencode(home), name), "wb") as file:
            file.write(b"piece: X\n")
    put(home, "right\u202eleft.yaml", "piece: X\n")
    put(home, ".hidden.yaml", "piece: X\n")
    put(home, "~lock.yaml", "piece: X\n")
    assert set(files(Folder(home).pieces())) == {"bench.yaml", "stool.yaml"}


@pytest.mark.parametrize(
    "name",
    [
        "../secret.yaml",
        "/etc/passwd",
        "..",
        "",
        "sub/in.yaml",
        ".scantling/x.yaml",
        "bench.yaml\0",
        "BENCH",
        "a\ud800.yaml",
    ],
)
def test_no_name_leads_out_of_the_listing(home, name):
    (home.parent / "secret.yaml").write_text("piece: Secret\n")
    (home / "sub").mkdir()
    put(home / "sub", "in.yaml", "piece: X\n")
    folder = Folder(home)
    assert not folder.has(name)
    with pytest.raises(ReadError, match="there is no file"):
        folder.text(name)


@posix
def test_links_that_lead_out_are_not_followed(home):
    secret = put(home.parent, "secret.yaml", "piece: Secret\n")
    (home / "out.yaml").symlink_to(secret)
    (home / "round.yaml").symlink_to("round.yaml")
    (home / "lost.yaml").symlink_to("nowhere.yaml")
    (home / "folder.yaml").symlink_to(home)
    (home / "inside.yaml").symlink_to("bench.yaml")
    folder = Folder(home)
    assert set(files(folder.pieces())) == {"bench.yaml", "stool.yaml", "inside.yaml"}
    with pytest.raises(ReadError):
        folder.text("out.yaml")


@posix
def test_what_is_no_file_is_passed_over(home):
    (home / "folder.yaml").mkdir()
    os.mkfifo(home / "pipe.yaml")
    assert set(files(Folder(home).pieces())) == {"bench.yaml", "stool.yaml"}


@pytest.mark.parametrize(
    ("raw", "text", "newline"),
    [
        (b"piece: X\nunits: mm\n", "piece: X\nunits: mm\n", "\n"),
        (b"piece: X\r\nunits: mm\r\n", "piece: X\r\nunits: mm\r\n", "\r\n"),
        (b"\xef\xbb\xbfpiece: X\n", "piece: X\n", "\n"),
        (b"", "", "\n"),
    ],
)
def test_texts_keep_their_line_ends(home, raw, text, newline):
    (home / "x.yaml").write_bytes(raw)
    found = Folder(home).text("x.yaml")
    assert (found.text, found.newline) == (text, newline)


def test_posted_text_gets_the_line_ends_of_the_file(home):
    (home / "x.yaml").write_bytes(b"piece: X\r\nunits: mm\r\n")
    folder = Folder(home)
    assert folder.text("x.yaml").in_its_lines("a\r\nb\nc") == "a\r\nb\r\nc"
    assert folder.text("bench.yaml").in_its_lines("a\r\nb\rc") == "a\nb\nc"


def test_the_stamp_changes_with_any_file(home):
    folder = Folder(home)
    (home / "kits").mkdir()
    stamps = [folder.stamp()]
    assert folder.stamp() == stamps[0]
    for path in (home / "bench.yaml", home / "kits" / "tray.yaml", home / "new.yaml"):
        path.write_text("piece: Another\n")
        stamps.append(folder.stamp())
    (home / "new.yaml").unlink()
    assert len(set(stamps)) == 4
    assert folder.stamp() == stamps[2]


def test_a_folder_that_is_gone_is_told(home):
    with pytest.raises(ScantlingError, match="cannot be looked through"):
        Folder(home / "nowhere").pieces()


@pytest.mark.parametrize(
    "name", ["con.yaml", "LPT1.yaml", "nul.build.yaml", "x.txt", "a/b.yaml", "x" * 120 + ".yaml"]
)
def test_names_no_system_should_be_given(name):
    assert trouble_with(name)
