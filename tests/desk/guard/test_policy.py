"""The headers on every answer, refusals and errors too."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from tests.desk.guard.conftest import Asking

OWN = "http://127.0.0.1:8123"
FIXED = {
    "x-content-type-options": "nosniff",
    "referrer-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
}


def parts(policy: str) -> dict[str, str]:
    return {name: rest for name, _, rest in (part.strip().partition(" ") for part in policy.split(";"))}


@pytest.mark.parametrize("path", ["/", "/nowhere", "/stumble", "/write", "/static/desk.css"])
def test_every_answer_carries_them(asking: Asking, path: str) -> None:
    headers = asking().get(path).headers
    policy = parts(headers["content-security-policy"])
    assert policy["default-src"] == "'none'"
    assert policy["script-src"] == policy["style-src"] == policy["form-action"] == "'self'"
    assert policy["connect-src"] == "'self' ws://127.0.0.1:8123"
    assert policy["frame-ancestors"] == policy["base-uri"] == "'none'"
    assert "unsafe" not in headers["content-security-policy"]
    assert {name: headers[name] for name in FIXED} == FIXED
    assert "camera=()" in headers["permissions-policy"]


def test_a_strange_name_never_gets_into_the_policy(asking: Asking) -> None:
    answer = asking().get("/", headers={"host": "x; script-src *"})
    assert answer.status_code == 400
    assert "*" not in answer.headers["content-security-policy"]


def test_a_page_may_bring_its_own_policy(asking: Asking) -> None:
    assert asking().get("/published").headers["content-security-policy"] == "sandbox"


@pytest.mark.parametrize(
    ("address", "keeping"),
    [
        ("/", "no-store"),
        ("/?0123456789ab", "no-store"),
        ("/static/desk.css?0123456789ab", "public, max-age=31536000, immutable"),
        ("/static/desk.css", "no-cache"),
        ("/static/desk.css?newest", "no-cache"),
        ("/static/gone.css?0123456789ab", "no-cache"),
    ],
)
def test_only_files_named_by_their_digest_are_kept(asking: Asking, address: str, keeping: str) -> None:
    assert asking().get(address).headers["cache-control"] == keeping
