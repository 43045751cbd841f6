"""The readers of public sets: every layout gives the same problem, and a broken file says where."""

from __future__ import annotations

from pathlib import Path

import pytest
from benchmarks.cutting.stick_files import FormatError, read
from benchmarks.cutting.sticks import main

from scantling.cutting.solver.sticks import Length, Stick, StickProblem

PROBLEM = StickProblem((Stick(100),), (Length(60, 2), Length(40, 1), Length(30, 2)))
LAYOUTS = {
    "packing": "5\n100\n60\n40\n60\n30\n30\n",
    "packing with a remark": "5 # how many\r\n100.0\r\n60 40 60 30 30\r\n",
    "cutting stock": "3\n100\n60\t2\n40\t1\n30\t2\n",
    "a length said twice": "4\n100\n60 1\n60 1\n40 1\n30 2\n",
    "vectors": "1\n100\n3\n60 2\n40 1\n30 2\n",
    "a library": "1\n u5_00\n 100 5 3\n60\n40\n60\n30\n30\n",
}


@pytest.mark.parametrize("layout", LAYOUTS)
def test_layouts(tmp_path: Path, layout: str) -> None:
    path = tmp_path / "a.txt"
    path.write_text(LAYOUTS[layout])
    (instance,) = read(path)
    assert instance.problem == PROBLEM
    assert instance.best == (3 if layout == "a library" else None)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "it is empty"),
        ("7", "expected how many sizes, then the capacity"),
        ("3\n100\n60\n", "3 sizes or 3 pairs"),
        ("2\n100\n60\nforty\n", "line 4: expected a number, found 'forty'"),
        ("2\n100\n60.5\n40\n", "line 3: 60.5 is not whole"),
        ("2\n100\n0\n40\n", "cannot be asked for"),
        ("2\nu_00\n100 1 1\n60\n", "ends before all 2 problems"),
        ("1\nu_00\n100 3 1\n60\n", "should have 3 sizes and has 1"),
    ],
)
def test_broken_files(tmp_path: Path, text: str, said: str) -> None:
    path = tmp_path / "a.txt"
    path.write_text(text)
    with pytest.raises(FormatError, match=said):
        read(path)


def test_a_folder_with_a_broken_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "good.bpp").write_text(LAYOUTS["packing"])
    (tmp_path / "bad.bpp").write_text("3\n100\n60\n")
    assert main([str(tmp_path), "--seconds", "120"]) == 0  # a busy machine compiles first
    told = capsys.readouterr()
    assert "1 of 1 proven, value 3, bound 3" in told.out
    assert "passed over: bad.bpp" in told.err
