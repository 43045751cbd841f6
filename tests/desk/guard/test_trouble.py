"""Trouble in plain words: a page for people, a line for a page that is open, never the program's insides."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from tests.desk.guard.conftest import Asking

OWN = "http://127.0.0.1:8123"


@pytest.mark.parametrize(
    ("path", "status", "words"),
    [
        ("/nowhere", 404, "There is nothing at this address"),
        ("/write", 405, "That cannot be done at this address"),
        ("/stumble", 500, "Something went wrong in the desk"),
    ],
)
def test_a_page_in_plain_words(asking: Asking, path: str, status: int, words: str) -> None:
    answer = asking().get(path)
    assert answer.status_code == status
    assert f"<h1>{words}</h1>" in answer.text
    assert 'href="/"' in answer.text


@pytest.mark.parametrize("headers", [{}, {"hx_request": "true"}])
def test_the_programs_insides_are_not_told(asking: Asking, headers: dict[str, str]) -> None:
    answer = asking(**headers).get("/stumble")
    assert not [word for word in ("Traceback", "RuntimeError", "/home/", ".py") if word in answer.text]


def test_htmx_gets_one_line_for_the_status_line(asking: Asking) -> None:
    answer = asking(hx_request="true").get("/nowhere")
    assert answer.status_code == 404
    assert answer.headers["hx-retarget"] == "#line"
    assert answer.headers["hx-reswap"] == "innerHTML"
    assert answer.text.startswith('<span class="told">')


def test_own_words_stand_in_the_page_as_text(asking: Asking) -> None:
    text = asking().get("/missing").text
    assert "No piece is called" in text
    assert "<b>" not in text


def test_what_may_be_done_instead_is_still_told(asking: Asking) -> None:
    assert "POST" in asking().get("/write").headers["allow"]
