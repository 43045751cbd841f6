"""The one bundled file: what it is, and that it is what its recipe makes."""

from __future__ import annotations

import gzip
import json
import re
import subprocess
from hashlib import sha256
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[3]
WEB = ROOT / "web"
VIEWER = ROOT / "src" / "scantling" / "desk" / "static" / "viewer"
TOLD = json.loads((VIEWER / "three.json").read_text(encoding="utf-8"))
BUNDLE = VIEWER / TOLD["file"]


def test_the_bundle_is_the_one_noted():
    assert sha256(BUNDLE.read_bytes()).hexdigest() == TOLD["sha256"]


def test_versions_are_pinned_and_the_viewer_takes_that_one():
    wanted = json.loads((WEB / "package.json").read_text(encoding="utf-8"))
    assert wanted["dependencies"] == {"three": TOLD["version"]}
    assert re.fullmatch(r"[\d.]+", wanted["devDependencies"]["esbuild"])
    assert f'"./{TOLD["file"]}"' in (VIEWER / "three.js").read_text(encoding="utf-8")
    assert not (WEB / "package-lock.json").exists()


def test_its_licence_lies_beside_it():
    assert "The MIT License" in (VIEWER / "three.licence.txt").read_text(encoding="utf-8")
    assert "three.licence.txt" in BUNDLE.read_text(encoding="utf-8")[:120]


def test_it_needs_no_eval_and_names_no_address():
    text = BUNDLE.read_text(encoding="utf-8")
    assert re.findall(r"\beval\(|new Function\(", text) == []
    assert set(re.findall(r"https?://[\w./-]+", text)) == {"http://www.w3.org/1999/xhtml"}


def test_all_of_the_viewer_is_light_enough():
    # source: the desk's own budget; a page has 250 kB in all
    sent = [
        gzip.compress(file.read_bytes(), 9) for file in VIEWER.iterdir() if file.suffix in (".js", ".css")
    ]
    assert sum(map(len, sent)) < 150_000


@pytest.mark.skipif(
    not (WEB / "node_modules").exists(), reason="web/node_modules is not here; see web/README.md"
)
def test_bundling_again_gives_the_same_bytes(tmp_path):
    subprocess.run(["node", "bundle.js", "--to", tmp_path], cwd=WEB, check=True, timeout=60)
    for name in (TOLD["file"], "three.json", "three.licence.txt"):
        assert (tmp_path / name).read_bytes() == (VIEWER / name).read_bytes()
