"""Requests that are a little wrong, over every address: answered or told why not, and nothing is lost."""

from __future__ import annotations

import json
from collections.abc import Iterator

import pytest
from starlette.routing import Route
from tests.desk.hostile.attack import Attack
from tests.desk.hostile.bench import Bench, bench, kept_wrong, step_all_back
from tests.desk.hostile.rounds import attacked
from tests.desk.hostile.words import NUMBERS, SHAPES

from scantling.desk.late import every

INSET = json.dumps(["sizes", "inset"])
ACTS = {
    "nudge": ({"name": "inset", "was": "1", "steps": "1"}, "steps"),
    "pull": ({"part": "top", "face": "right", "by": "1"}, "by"),
    "mend": ({"number": "1"}, "number"),
    "words": ({"path": INSET, "was": "1", "words": "1"}, "path"),
    "choose": ({"path": INSET, "was": "1", "option": "2"}, "path"),
    "say": ({"path": INSET, "words": "x"}, "path"),
    "remove": ({"path": INSET}, "path"),
    "open": ({"path": INSET}, "path"),
    "change": ({"path": INSET, "file": "stand.yaml", "was": "1", "words": "2"}, "path"),
}


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Bench]:
    folder = tmp_path_factory.mktemp("hostile") / "pieces"
    folder.mkdir()
    with bench(folder) as opened:
        yield opened


@pytest.mark.parametrize("seed", [1, 2])
def test_nothing_sent_makes_the_desk_stumble(seed: int) -> None:
    report = attacked(250, seed)
    assert report.faults == []
    assert {200, 400, 403, 404, 422} <= report.answers.keys()


@pytest.mark.parametrize("do", ACTS)
def test_no_act_stumbles_on_its_numbers_and_paths(desk: Bench, do: str) -> None:
    fields, odd = ACTS[do]
    for words in SHAPES if odd == "path" else NUMBERS:
        answer = desk.client.post("/piece/stand/act", data={"do": do, **fields, odd: words})
        assert answer.status_code < 500
        assert desk.near.stumbled == [], words
    step_all_back(desk)
    assert kept_wrong(desk) == []
    assert desk.files == desk.originals


@pytest.mark.parametrize("face", ["", "left", "Right", "../x"])
def test_a_face_no_part_has_is_told(desk: Bench, face: str) -> None:
    desk.client.post("/piece/stand/act", data={"do": "pull", "part": "top", "face": face, "by": "1"})
    assert desk.near.stumbled == []
    step_all_back(desk)


def test_every_address_is_among_those_attacked(desk: Bench) -> None:
    app = desk.client.app.app.app.app  # type: ignore[union-attr]
    own = {route.path for route in every(app.routes) if isinstance(route, Route)}
    seen = {route.path for route in Attack(desk, None)._routes()}  # type: ignore[arg-type]
    assert own == seen
