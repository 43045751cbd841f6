"""The readers of public sets of sheets, and the command that runs them."""

from __future__ import annotations

from pathlib import Path

import pytest
from benchmarks.cutting.sheet_files import read
from benchmarks.cutting.sheets import main
from benchmarks.cutting.stick_files import FormatError

from scantling.cutting.solver.guillotine import Flaw, Rectangle, SheetKind, SheetProblem

CLASSES = """
  1            PROBLEM CLASS
  3            N. OF ITEMS
  1  1         RELATIVE AND ABSOLUTE N. OF INSTANCE
 10 20         HBIN,WBIN
  6  4         H(I),W(I),I=1,...,N
  5  9
  3  3

  1            PROBLEM CLASS
  1            N. OF ITEMS
  2  2         RELATIVE AND ABSOLUTE N. OF INSTANCE
 10 10         HBIN,WBIN
  7  8         H(I),W(I),I=1,...,N
"""
ONE = "3\n20 10\n0 4 6 1 1 0\n1 9 5 1 1 0\n2 3 3 1 1 0\n"


def test_both_layouts_tell_one_problem(tmp_path: Path) -> None:
    for name, text in (("a.2bp", CLASSES), ("b.ins2D", ONE)):
        (tmp_path / name).write_text(text)
    wanted = (Rectangle(4, 6), Rectangle(9, 5), Rectangle(3, 3))
    expected = SheetProblem((SheetKind(20, 10),), wanted)
    first, second = read(tmp_path / "a.2bp", turns=False)
    assert first.problem == expected
    assert (first.set, second.name) == ("class 1", "1/2")
    (alone,) = read(tmp_path / "b.ins2D", turns=False)
    assert alone.problem == expected


UNEQUAL = "2\n20 10 0 7\n9 9 2\n2\n4 6 2\n5 5 1\n"
FLAWED = UNEQUAL + "1\n2 3 0 2 1 # a dent\n"


def test_sheets_of_several_sizes_and_their_flaws(tmp_path: Path) -> None:
    path = tmp_path / "a.txt"
    path.write_text(UNEQUAL)
    wanted = (Rectangle(4, 6, 2, turns=True), Rectangle(5, 5, 1, turns=True))
    (alone,) = read(path, turns=True)
    assert alone.problem == SheetProblem((SheetKind(20, 10, 7), SheetKind(9, 9, 81, 2)), wanted)
    path.write_text(FLAWED)
    (flawed,) = read(path, turns=True)
    assert flawed.problem.sheets[1] == SheetKind(9, 9, 81, 2, flaws=(Flaw(3, 5, 0, 1),))


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "no numbers"),
        ("1\n3\n1 1\n", "within the head"),
        ("1\n3\n1 1\n10 10\n4 4\n", "only 1 are told"),
        ("1\n1\n1 1\n10 10\n0 4\n", "cannot be asked for"),
        ("1\n9 9 2\n1\n4 6\n", "of a piece"),
        ("3\n9 9 2\n1\n4 6 1\n", "of a sheet"),
        (UNEQUAL + "1\n3 0 0 1 1\n", "sheets 1 to 2"),
        (FLAWED + "1\n", "nothing more"),
        (UNEQUAL.replace("9 9", "0 9"), "nothing can be cut"),
        ("2\n10 10\n0 4\n1 3 3\n", "expected number, width, height and demand"),
    ],
)
def test_broken_files(tmp_path: Path, text: str, said: str) -> None:
    path = tmp_path / "a.txt"
    path.write_text(text)
    with pytest.raises(FormatError, match=said):
        read(path, turns=False)


def test_the_command(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "a.2bp").write_text(CLASSES)
    (tmp_path / "b.2bp").write_text("9")
    assert main([str(tmp_path), "--seconds", "1"]) == 0
    told = capsys.readouterr()
    assert "2 of 2 proven, value 2, bound 2" in told.out
    assert "passed over: b.2bp" in told.err
