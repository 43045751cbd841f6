"""The guard as a browser meets it, at the real desk."""

from __future__ import annotations

import os
import re
import sys
from collections.abc import Iterator
from contextlib import closing
from html import unescape
from pathlib import Path
from sqlite3 import connect
from tempfile import gettempdir

import httpx2
import pytest
from playwright.sync_api import Browser, Page
from tests.desk.e2e.served import Served
from tests.desk.e2e.visits import AWAY, Visits, look_over

ROOT = Path(__file__).parents[3]
STRANGER = "from tests.desk.e2e.small_desk import serve\nserve()"
LINK = re.compile(r"""(?:href|src|hx-get|action|data-[a-z-]+)="(/[^"#]*)""")
ODD = [
    "/nowhere",
    "/piece/..%2f..%2fetc",
    "/piece/%00",
    "/static/../app.py",
    "/static/%2e%2e/app.py",
    "/static/",
    "//",
]


@pytest.fixture
def stranger(browser: Browser, tmp_path: Path) -> Iterator[Page]:
    """A page of another program on this machine, open in the same browser."""
    served = Served(tmp_path, tmp_path / "log", STRANGER).start()
    visits = Visits(browser, served)
    yield visits("/", bypass_csp=True)
    visits.close()
    served.kill()


SEND = """to => fetch(to + "/drafts", {
  method: "POST",
  mode: "no-cors",
  body: new URLSearchParams({page: "/", field: "tried", text: location.port, at: "1"}),
}).then(() => "sent", () => "refused")"""


def test_only_an_own_page_can_write(stranger: Page, desk: Served, visit: Visits) -> None:
    assert stranger.evaluate(SEND, desk.url) == "refused"
    assert drafts(desk) == []
    assert visit("/").evaluate(SEND, desk.url) == "sent"
    assert drafts(desk) == [str(desk.port)]


def drafts(desk: Served) -> list[str]:
    with closing(connect(desk.folder / ".scantling" / "ledger.sqlite3")) as ledger:
        return [text for (text,) in ledger.execute("select text from drafts where field = 'tried'")]


FORM = """to => {
  const form = Object.assign(document.createElement("form"), {method: "post", action: to});
  document.body.append(form);
  form.submit();
}"""


def test_a_strange_form_cannot_write(stranger: Page, desk: Served) -> None:
    stranger.evaluate(FORM, f"{desk.url}/drafts")
    stranger.get_by_role("heading", name="Only the desk's own pages").wait_for()
    assert stranger.url == f"{desk.url}/drafts"


LISTEN = """to => new Promise(done => {
  const line = new WebSocket(to);
  line.onopen = () => done("open");
  line.onerror = () => done("shut");
})"""


def test_a_strange_page_cannot_listen(stranger: Page, desk: Served, visit: Visits) -> None:
    line = f"ws://127.0.0.1:{desk.port}/news"
    assert stranger.evaluate(LISTEN, line) == "shut"
    assert visit("/").evaluate(LISTEN, line) == "open"


def test_a_strange_name_reaches_nothing(desk: Served) -> None:
    answer = httpx2.get(desk.url, headers={"host": f"cupboard.example:{desk.port}"})
    assert answer.status_code == 400
    assert "does not go by this name" in answer.text


def test_trouble_inside_a_page_is_told_on_its_line_and_replaces_nothing(visit: Visits) -> None:
    visit.expect("404")
    page = visit("/")
    before = page.locator("#main h1").inner_text()
    page.evaluate("htmx.ajax('GET', '/nowhere', {target: '#main'})")
    page.locator("#line", has_text="There is nothing at this address").wait_for()
    assert page.locator("#main h1").inner_text() == before


def test_a_page_for_trouble(visit: Visits, size: str) -> None:
    visit.expect("404")
    look_over(visit("/nowhere", size), "nowhere")


HEADERS = {"content-type": "application/x-www-form-urlencoded"}


@pytest.mark.parametrize("announced", [True, False])
def test_too_large_a_body_is_answered_by_the_real_server(desk: Served, announced: bool) -> None:
    body = b"x" * 3_000_000
    content = body if announced else (body[at : at + 50_000] for at in range(0, len(body), 50_000))
    answer = httpx2.post(f"{desk.url}/drafts", content=content, headers=HEADERS | {"origin": desk.url})
    assert answer.status_code == 413
    assert "too large" in answer.text


def test_killed_and_started_again_the_open_page_goes_on(own_desk: Served, own_visit: Visits) -> None:
    own_visit.expect(*AWAY)
    page = own_visit("/")
    own_desk.restart()
    page.locator("#line", has_text="The desk is back").wait_for()


def test_no_page_tells_where_the_files_lie(desk: Served) -> None:
    hidden = {
        str(path) for path in (desk.folder, desk.folder.parent, gettempdir(), ROOT, sys.prefix, Path.home())
    }
    told = {(address, path) for address, text in walked(desk) for path in hidden - {os.sep} if path in text}
    assert told == set()


def walked(desk: Served, most: int = 150) -> Iterator[tuple[str, str]]:
    """Every address of the desk that its pages lead to, and odd ones, each with its headers and text."""
    ahead, seen = ["/", "/sharing", *ODD], set[str]()
    with httpx2.Client(base_url=desk.url, timeout=60) as client:
        while ahead and len(seen) < most:
            address = ahead.pop(0)
            if address in seen:
                continue
            seen.add(address)
            answer = client.get(address)
            text = answer.text if answer.headers.get("content-type", "").startswith("text/") else ""
            yield address, f"{answer.headers}\n{text}"
            ahead.extend(unescape(found) for found in LINK.findall(text))
    assert len(seen) > len(ODD) + 5
