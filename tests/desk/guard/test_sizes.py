"""How much may be sent: said beforehand, or counted while it arrives."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest

from scantling.desk.guard import Limits

if TYPE_CHECKING:
    from tests.desk.guard.conftest import Asking

OWN = "http://127.0.0.1:8123"


@pytest.mark.parametrize(("path", "limit"), [("/write", 100), ("/rack/photo", 1000)])
def test_up_to_the_limit_is_taken_and_no_more(asking: Asking, path: str, limit: int) -> None:
    browser = asking(origin=OWN)
    assert browser.post(path, content=b"x" * limit).text == str(limit)
    over = browser.post(path, content=b"x" * (limit + 1))
    assert over.status_code == 413
    assert "too large" in over.text


def test_a_body_that_says_it_is_too_large_never_reaches_the_page(asking: Asking) -> None:
    browser = asking(origin=OWN)
    assert browser.post("/ignore", content=b"x" * 100).text == "not read"
    assert browser.post("/ignore", content=b"x" * 101).status_code == 413


def test_a_body_that_hides_its_length_is_cut_off_as_it_arrives(asking: Asking) -> None:
    given = []

    def pieces() -> Iterator[bytes]:
        for number in range(1000):
            given.append(number)
            yield b"x" * 60

    answer = asking(origin=OWN).post("/write", content=pieces())
    assert answer.status_code == 413
    assert "<h1>That is too large</h1>" in answer.text


def test_a_body_that_lies_about_its_length_is_counted(asking: Asking) -> None:
    answer = asking(origin=OWN).post("/write", content=b"x" * 200, headers={"content-length": "5"})
    assert answer.status_code == 413


def test_usual_limits() -> None:
    limits = Limits()
    assert limits.for_path("/piece/tray/size") == 1_000_000
    assert limits.for_path("/rack/oak-1/photo") == limits.for_path("/photos") == 12_000_000
    assert limits.for_path("/piece/photo frame") == limits.for_path("/piece/photo/act") == 1_000_000


def test_files_are_taken_only_where_a_photo_is_asked_for(asking: Asking) -> None:
    browser = asking(origin=OWN)
    with_file = {"content": b"--x\r\n", "headers": {"content-type": "Multipart/form-data; boundary=x"}}
    assert browser.post("/write", **with_file).status_code == 415
    assert browser.post("/rack/photo", **with_file).status_code == 200


def test_no_address_is_longer_than_any_of_the_desk(asking: Asking) -> None:
    answer = asking(origin=OWN).get("/" + "9" * 5000)
    assert (answer.status_code, "9999" in answer.text) == (414, False)
