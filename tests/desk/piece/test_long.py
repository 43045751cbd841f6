"""Plans that take long: the last good answer stays, marked as old; they are stopped and overtaken."""

from __future__ import annotations

import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient
from tests.desk.piece.conftest import Bench, plain, triggers

from scantling.desk.app import desk_app
from scantling.desk.piece import answering, routes


@pytest.fixture
def slow(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Bench]:
    """A desk whose worker sleeps half a minute over any piece with an inset of 2."""
    lazy = tmp_path / "lazy"
    lazy.mkdir()
    (lazy / "sitecustomize.py").write_text(
        "import sys, time\n"
        "if 'scantling.desk.working.worker' in sys.orig_argv:\n"
        "    import scantling.plan as plan\n"
        "    usual = plan.make_plan\n"
        "    def make_plan(document, *rest, **more):\n"
        "        time.sleep(30 if 'inset: 2,' in document.text else 0)\n"
        "        return usual(document, *rest, **more)\n"
        "    plan.make_plan = make_plan\n"
    )
    monkeypatch.setenv("PYTHONPATH", str(lazy))
    monkeypatch.setattr(answering, "PATIENCE", 0.3)
    monkeypatch.setattr(routes, "OVERTAKEN", 0.2)
    folder = tmp_path / "pieces"
    folder.mkdir()
    with TestClient(desk_app(folder), follow_redirects=False) as client:
        yield Bench(folder, client)


def until_planned(bench: Bench, limit: float = 60) -> str:
    """The panels once they are no more waited for."""
    end = time.monotonic() + limit
    while time.monotonic() < end:
        answer = bench.get("/answers", have="")
        if "piece:shape" in triggers(answer):
            return answer.text
        time.sleep(0.1)
    raise AssertionError("it was never planned")


def test_a_long_plan(slow: Bench) -> None:
    until_planned(slow)
    began = time.monotonic()
    answer = slow.size("inset", "1", "2")
    assert "Still working it out." in plain(answer.text)
    assert triggers(answer)["desk:taken"] == {"fields": ["f1"]}
    assert 'value="2"' in answer.text  # the fields have the new words at once
    assert "is-old" in answer.text
    page = slow.get()
    assert "Still working it out." in plain(page.text)
    assert "12 × 10 × 8 inches" in plain(page.text)

    # What is in the text can be changed meanwhile, and overtakes the plan that nobody wants any more.
    slow.size("inset", "2", "1 1/2")
    assert "inset: 1 1/2," in slow.words
    assert "1 1/2 in (38.1 mm)" in plain(until_planned(slow))

    slow.size("inset", "1 1/2", "2")
    stopped = slow.post("/stop")
    assert "Planning was stopped." in plain(stopped.text)
    assert "Planning was stopped." in plain(slow.get().text)
    assert "Still working it out." in plain(slow.get("/answers", go="yes").text)
    slow.post("/undo")
    until_planned(slow)
    assert time.monotonic() - began < 29


def test_a_first_page_that_takes_long(slow: Bench) -> None:
    slow.path.write_text(slow.words.replace("inset: 1,", "inset: 2,"))
    page = slow.get()
    assert page.status_code == 200
    assert "Still working it out." in plain(page.text)
    assert 'id="pic"' not in page.text
    assert "Stop planning" in page.text
    slow.post("/stop")
    assert "Planning was stopped." in plain(slow.get().text)
    assert "inset: 2," in slow.get("/text").text


def test_sizes_step_while_a_plan_goes_on(slow: Bench) -> None:
    until_planned(slow)
    slow.size("inset", "1", "2")
    slow.act("nudge", name="inset", was="2", steps="-8")
    assert "inset: 1 1/2," in slow.words
