"""What is committed: pinned constraints without addresses, no paths of a machine."""

from __future__ import annotations

import re
from pathlib import Path

ROOT = Path(__file__).parents[2]


def test_every_dependency_is_pinned_without_an_address() -> None:
    import tomllib

    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    extras = project["optional-dependencies"].values()
    wanted = [*project["dependencies"], *(word for extra in extras for word in extra)]
    names = {re.split(r"[\[<>=]", word)[0].lower() for word in wanted}
    lines = (ROOT / "constraints.txt").read_text(encoding="utf-8").splitlines()
    pinned = {line.split("==")[0].lower() for line in lines if "==" in line}
    assert names <= pinned
    assert not [line for line in lines if "://" in line or line.startswith("-")]
