"""A desk in a process of its own, on a folder of its own, that may be killed and started again."""

from __future__ import annotations

import contextlib
import os
import random
import shutil
import signal
import socket
import subprocess
import sys
import time
from dataclasses import dataclass, field
from pathlib import Path
from urllib.error import HTTPError, URLError
from urllib.request import urlopen

EXAMPLES = Path(__file__).parents[3] / "src" / "scantling" / "examples"
DESK = """
import sys
from pathlib import Path
from scantling.desk.serving import run_desk
run_desk(Path(sys.argv[1]), port=int(sys.argv[2]), browser=False, share="share" in sys.argv)
"""
READY_WITHIN = 30.0  # seconds, on a machine that is busy with other tests


def demo_folder(folder: Path) -> Path:
    """The demo as a maker has it: the desk, what hangs in the hall, the shop."""
    folder.mkdir(parents=True, exist_ok=True)
    shutil.copy(EXAMPLES / "sewing-desk.yaml", folder)
    shutil.copy(EXAMPLES / "hall-pieces.yaml", folder)
    shutil.copy(EXAMPLES / "shops" / "sewing-desk.yaml", folder / "shop.yaml")
    return folder


@dataclass
class Served:
    """`program` is given the folder and the port, and `more`; `log` is all that it printed.

    `host` is the address that visitors ask under.
    """

    folder: Path
    log_file: Path
    program: str = DESK
    more: tuple[str, ...] = ()
    host: str = "127.0.0.1"
    port: int = field(default_factory=lambda: free_port())
    _process: subprocess.Popen[bytes] | None = None

    @property
    def url(self) -> str:
        return f"http://{self.host}:{self.port}"

    @property
    def log(self) -> str:
        return self.log_file.read_text(encoding="utf-8", errors="replace")

    def start(self) -> Served:
        """Start it and wait until it answers."""
        words = [sys.executable, "-c", self.program, str(self.folder), str(self.port), *self.more]
        with self.log_file.open("ab") as log:
            self._process = subprocess.Popen(words, stdout=log, stderr=log, start_new_session=True)
        self._wait_until_ready()
        return self

    def kill(self) -> None:
        """End it without warning, as a cut of the mains would."""
        self._end(signal.SIGKILL)

    def stop(self) -> None:
        """Ask it to end, and end whatever it left running."""
        if self._process and self._process.poll() is None:
            self._process.terminate()
            with contextlib.suppress(subprocess.TimeoutExpired):
                self._process.wait(5)
        self._end(signal.SIGKILL)

    def restart(self) -> None:
        """Kill it and start it again at the same port."""
        self.kill()
        self.start()

    def _end(self, how: signal.Signals) -> None:
        if self._process is None:
            return
        with contextlib.suppress(ProcessLookupError):
            os.killpg(self._process.pid, how)
        self._process.wait(10)
        self._process = None

    def _wait_until_ready(self) -> None:
        assert self._process is not None
        until = time.monotonic() + READY_WITHIN
        while not self._answers():
            code = self._process.poll()
            if code is not None or time.monotonic() > until:
                self.stop()
                raise AssertionError(f"the desk did not start (exit code {code}):\n{self.log[-4000:]}")
            time.sleep(0.05)

    def _answers(self) -> bool:
        try:
            with urlopen(f"http://127.0.0.1:{self.port}/static/desk.css", timeout=5):
                return True
        except HTTPError as error:
            error.close()
            return True
        except (URLError, OSError):
            return False


def free_port() -> int:
    """A port nobody listens at, outside the range from which systems take ports for calls going out."""
    while True:
        port = random.randrange(20_000, 32_000)
        with socket.socket() as trying, contextlib.suppress(OSError):
            trying.bind(("127.0.0.1", port))
            return port
