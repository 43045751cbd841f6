"""Starting the desk: the only place that opens a port."""

from __future__ import annotations

import socket
import webbrowser
from pathlib import Path
from threading import Timer

import uvicorn

from scantling.desk.app import desk_app
from scantling.desk.guard import GuardSettings, guarded

HERE = "127.0.0.1"
PORT = 8347


def run_desk(path: Path, port: int | None = None, browser: bool = True) -> None:
    """Serve the folder `path` on this machine only, until stopped."""
    listening = _listening(port)
    port = listening.getsockname()[1]
    address = f"http://{HERE}:{port}/"
    print(f"The desk is at {address}  (Ctrl+C ends it)", flush=True)  # noqa: T201
    if browser:
        Timer(0.5, webbrowser.open, (address,)).start()
    app = guarded(desk_app(path), GuardSettings.at(port))
    config = uvicorn.Config(app, log_level="warning", ws="websockets-sansio", lifespan="on")
    uvicorn.Server(config).run(sockets=[listening])


def _listening(port: int | None) -> socket.socket:
    """The port asked for; when none is asked for, the usual one or, if it is taken, any that is free."""
    for candidate in (PORT, 0) if port is None else (port,):
        found = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
        try:
            found.bind((HERE, candidate))
        except OSError:
            found.close()
            if candidate == port:
                raise
        else:
            return found
    raise AssertionError("any free port could be had")
