"""How quick the desk is, in Chromium, against its targets: `python benchmarks/desk.py [edits]`.

Edit to screen runs from the Enter key to new words, new shapes and a painted frame; the plan alone is what
the desk's worker says it took. Run it on a quiet machine.
"""

from __future__ import annotations

import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from urllib.error import URLError
from urllib.request import urlopen

from playwright.sync_api import Locator, Page, sync_playwright

EXAMPLES = Path(__file__).parents[1] / "src" / "scantling" / "examples"
PORT = 28_411
DESK = f"http://127.0.0.1:{PORT}"
FLAGS = ["--no-sandbox", "--use-angle=swiftshader", "--enable-unsafe-swiftshader", "--ignore-gpu-blocklist"]
ARM = """() => {
  const pic = document.getElementById("pic");
  const painted = () => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)));
  performance.clearResourceTimings();
  window.measured = new Promise((done, fail) => {
    let begun = 0;
    addEventListener("keydown", () => { begun = performance.now(); }, { once: true, capture: true });
    setTimeout(() => fail(new Error("the picture never changed")), 20000);
    new MutationObserver(async (_, seen) => {
      seen.disconnect();
      await painted();
      const timed = performance.getEntriesByType("resource").flatMap(one => one.serverTiming);
      done([performance.now() - begun, timed[0].duration]);
    }).observe(pic, { attributes: true, attributeFilter: ["data-shown"] });
  });
}"""


@contextmanager
def served(folder: Path) -> Iterator[float]:
    """A desk on the demo; gives the seconds from the start of its process to its first page."""
    begun = time.perf_counter()
    words = [sys.executable, "-m", "scantling.cli", "desk", str(folder), "--no-browser", "--port", str(PORT)]
    with subprocess.Popen(words, stdout=subprocess.DEVNULL) as process:
        while not _answers():
            time.sleep(0.005)
        yield time.perf_counter() - begun
        process.terminate()


def _answers() -> bool:
    try:
        with urlopen(f"{DESK}/", timeout=10) as answer:
            return bool(answer.status == 200)
    except (URLError, OSError):
        return False


def ready(page: Page) -> tuple[float, float]:
    """Seconds until the page of the piece shows its picture, and kB that came over the line."""
    line = page.context.new_cdp_session(page)
    came: list[float] = []
    line.on("Network.loadingFinished", lambda told: came.append(told["encodedDataLength"]))
    line.send("Network.enable")
    begun = time.perf_counter()
    page.goto(f"{DESK}/piece/sewing-desk")
    page.locator("#pic[data-shown]").wait_for()
    return time.perf_counter() - begun, sum(came) / 1000


def edits(page: Page, count: int) -> list[tuple[float, float]]:
    """Milliseconds of each edit: to the screen, and of its plan alone."""
    field = page.get_by_label("overall deep", exact=True)
    return [edit(page, field, f"17 {n}/32") for n in range(1, count + 1)]


def edit(page: Page, field: Locator, words: str) -> tuple[float, float]:
    """One size typed, and Enter."""
    field.fill(words)
    page.evaluate(ARM)
    field.press("Enter")
    whole, plan = page.evaluate("window.measured")
    page.wait_for_timeout(150)  # what follows an answer is not part of the next edit
    return whole, plan


def p95(values: list[float]) -> float:
    return statistics.quantiles(values, n=20)[-1]


def main() -> None:
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 30
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        for name, kept in (("sewing-desk", ""), ("hall-pieces", ""), ("shops/sewing-desk", "shop.yaml")):
            shutil.copy(EXAMPLES / f"{name}.yaml", Path(folder) / kept)
        with served(Path(folder)) as first:
            print(f"first page after start   {first:.2f} s   (0.6)")
            browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=FLAGS)
            cold = browser.new_page()
            print("page, plan not at hand   {:.2f} s, {:.0f} kB".format(*ready(cold)))
            cold.close()
            page = browser.new_context(reduced_motion="reduce").new_page()
            print("page ready               {:.2f} s, {:.0f} kB   (1.5, 250)".format(*ready(page)))
            measured = edits(page, count)
            whole, plans = ([row[n] for row in measured] for n in (0, 1))
            over = [screen - plan for screen, plan in measured]
            print(f"plan alone               {statistics.median(plans):.0f} ms median, {p95(plans):.0f} p95")
            print(f"edit to screen           {statistics.median(whole):.0f} ms median, {p95(whole):.0f} p95")
            print(
                f"  over the plan          {statistics.median(over):.0f} ms median, {p95(over):.0f} (60, 120)"
            )
            browser.close()


if __name__ == "__main__":
    main()
