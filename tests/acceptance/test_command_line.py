"""The command as a maker runs it: exit codes and what is printed."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

from pypdf import PdfReader

SCANTLING = Path(sys.executable).with_name("scantling")


def run(pieces: Path, *words: str, wide: int = 200) -> subprocess.CompletedProcess[str]:
    environment = {**os.environ, "COLUMNS": str(wide)}
    return subprocess.run(
        [str(SCANTLING), *words], cwd=pieces, env=environment, capture_output=True, text=True, timeout=120
    )


def test_a_sound_piece_ends_with_nought(pieces) -> None:
    done = run(pieces, "check", "plant-cabinet.yaml", "--shop", "shops/thin-sheet.yaml")
    assert done.returncode == 0, done.stdout + done.stderr


def test_a_must_fix_ends_with_one(pieces) -> None:
    done = run(pieces, "check", "wardrobe.yaml")
    assert done.returncode == 1
    assert "must fix" in done.stdout
    assert "does not go through a doorway" in " ".join(done.stdout.split())


def test_a_slip_ends_with_two_and_points_at_it(pieces) -> None:
    done = run(pieces, "check", "wrong/misspelt.yaml")
    assert done.returncode == 2
    assert "misspelt.yaml:7:39:" in done.stderr
    assert "^^^^^^^^^^" in done.stderr
    assert "Traceback" not in done.stderr


def test_parts_gives_true_and_upright(pieces) -> None:
    done = run(pieces, "parts", "splayed-bench.yaml")
    # source: by hand, 16 1/2 x 1.019189 = 16.817
    assert "16 13/16 true" in done.stdout
    assert "16 1/2 upright" in done.stdout


def test_parts_gives_the_overall_of_a_leaning_leg(pieces) -> None:
    # source: by hand, (16 1/2 + 1 1/2) x 1.019189 = 18.345 = 18 11/32
    assert "18 11/32" in run(pieces, "parts", "splayed-bench.yaml").stdout


def test_cuts_names_every_stick(pieces) -> None:
    done = run(pieces, "cuts", "stick-bench.yaml", "--shop", "shops/sticks.yaml")
    assert done.returncode == 0, done.stderr[-300:]
    assert done.stdout.count("to buy") >= 4


def test_a_finding_says_where(pieces) -> None:
    # source: docs/piece-language.md: every message names the file, the line and the character
    assert "wardrobe.yaml:" in run(pieces, "check", "wardrobe.yaml").stdout


def test_pocket_holes_can_be_laid_out(pieces, tmp_path) -> None:
    done = run(pieces, "plan", "pocket-screwed-step.yaml", "--out", str(tmp_path), "-q", "--allow-must-fix")
    assert done.returncode == 0, done.stderr
    (print_out,) = tmp_path.glob("*.pdf")
    words = " ".join(page.extract_text() for page in PdfReader(print_out).pages)
    rows = re.findall(r"\n[a-d] \d (.{0,70}?)3/8 \(9\.5\)", words, re.DOTALL)
    assert len(rows) == 2, rows
    # source: by hand. The mouths lie on the broad front face, 3.15 - 1.75 = 1.4 in = 1 13/32 from
    # end 0 and 10.85 - 1.75 = 9.1 in = 9 3/32
    assert all("near face" in row for row in rows), rows
    assert "1 13/32" in rows[0] + rows[1]
    assert "9 3/32" in rows[0] + rows[1]
