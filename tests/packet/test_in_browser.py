"""The page in a real browser: quiet console, no request outside, nothing wider than the screen.

A test copy of the page gets a script that measures it; the page itself has none and allows none.
"""

from __future__ import annotations

import json
import re
import shutil
import subprocess
from html import escape
from pathlib import Path

import pytest

from scantling.packet.data import packet_data
from scantling.packet.page import packet_page

BROWSER = next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)
pytestmark = pytest.mark.skipif(BROWSER is None, reason="needs Chromium; .ci/run installs it")
QUIET = (
    "--headless=new",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
    "--enable-logging=stderr",
    "--host-resolver-rules=MAP * ~NOTFOUND",
)
WIDTHS = (390, 820, 1280)
POLICY = re.compile(r'<meta http-equiv="Content-Security-Policy"[^>]*>')
PROBE = """<script>addEventListener("load", () => {
  const all = [...document.querySelectorAll("body *")];
  const shown = box => box.width > 20 && box.height > 5;
  const size = item => parseFloat(getComputedStyle(item).fontSize);
  const beyond = item => item.getBoundingClientRect().right > innerWidth + 1;
  const inScroller = item => item.closest(".wide, .drawing, nav ol");
  parent.postMessage(JSON.stringify({
    width: innerWidth,
    page: document.documentElement.scrollWidth,
    beyond: all.filter(i => !inScroller(i) && beyond(i)).map(i => i.outerHTML.slice(0, 90)),
    pictures: document.querySelectorAll("svg").length,
    seen: [...document.querySelectorAll("svg")].filter(i => shown(i.getBoundingClientRect())).length,
    smallest: Math.min(...all.filter(i => !i.closest("svg, input")).map(size)),
  }), "*");
});</script>"""
FRAMES = """<!doctype html><meta charset="utf-8"><title>frames</title><pre id="told"></pre><script>
addEventListener("message", event => { document.getElementById("told").append(event.data + "\\n"); });
</script>"""


def opened(folder: Path, page: str) -> tuple[str, list[str], set[str]]:
    """The document after loading, what the console said, and every address of the web asked for."""
    file, log = folder / "page.html", folder / "net.json"
    file.write_text(page, encoding="utf-8")
    command = [
        BROWSER,
        *QUIET,
        f"--user-data-dir={folder / 'profile'}",
        f"--log-net-log={log}",
        "--virtual-time-budget=4000",
        "--dump-dom",
        file.as_uri(),
    ]
    run = subprocess.run(command, capture_output=True, text=True, timeout=90, check=True)
    console = [line for line in run.stderr.splitlines() if "CONSOLE" in line]
    events = json.loads(log.read_text(encoding="utf-8"))["events"]
    return run.stdout, console, {asked for event in events if (asked := asked_by_page(event.get("params")))}


def asked_by_page(params: object) -> str:
    """The web address a page asked for; what the browser asks for itself has no origin."""
    if not isinstance(params, dict) or params.get("initiator", "not an origin") == "not an origin":
        return ""
    address = str(params.get("url", ""))
    return address if address.startswith("http") else ""


@pytest.fixture(scope="module")
def page(make_plan):
    """A page whose names are as long and as hostile as makers may make them."""
    return packet_page(
        packet_data(make_plan("Bench" * 14, 'top </script><img src="//a.example/x">'))
    ).decode()


@pytest.fixture(scope="module")
def measured(page, tmp_path_factory):
    """What the probe told, by width of the screen."""
    copy = POLICY.sub("", page).replace("</body>", f"{PROBE}</body>")
    frames = (
        f'<iframe width="{width}" height="900" style="border:0" srcdoc="{escape(copy)}"></iframe>'
        for width in WIDTHS
    )
    dom, _, _ = opened(tmp_path_factory.mktemp("frames"), FRAMES + "".join(frames))
    told = re.search(r'<pre id="told">(.*?)</pre>', dom, re.DOTALL)
    assert told
    lines = told.group(1).replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&").splitlines()
    return {row["width"]: row for row in map(json.loads, filter(None, lines))}


def test_console_is_quiet_and_nothing_outside_is_asked_for(page, tmp_path):
    dom, console, asked = opened(tmp_path, page)
    assert "</main>" in dom
    assert console == []
    assert asked == set()


def test_a_request_outside_would_be_noticed(page, tmp_path):
    # source: by hand; the policy blocks the picture and the console says so, so the test above can fail
    _, console, _ = opened(
        tmp_path, page.replace("</main>", '<img src="https://a.example/x.png" alt=""></main>')
    )
    assert any("a.example" in line for line in console)


def test_without_its_policy_the_address_would_be_asked_for(page, tmp_path):
    loose = POLICY.sub("", page).replace("</main>", '<img src="https://a.example/x.png" alt=""></main>')
    _, _, asked = opened(tmp_path, loose)
    assert any("a.example" in address for address in asked)


@pytest.mark.parametrize("width", WIDTHS)
def test_nothing_is_wider_than_the_screen(measured, width):
    # source: published; WCAG 2.2, 1.4.10 (reflow): no sideways scrolling, tables and drawings excepted
    assert measured[width]["beyond"] == []
    assert measured[width]["page"] <= width


@pytest.mark.parametrize("width", WIDTHS)
def test_every_picture_is_seen(measured, width):
    assert measured[width]["pictures"] > 5
    assert measured[width]["seen"] == measured[width]["pictures"]


def test_lettering_is_never_tiny(measured):
    # source: common practice, no source; 14 px and up on a phone
    assert measured[390]["smallest"] >= 14
