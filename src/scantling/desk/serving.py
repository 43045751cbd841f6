"""Starting the desk: the only place that opens a port."""

from __future__ import annotations

import os
import socket
import webbrowser
from pathlib import Path
from threading import Timer

import uvicorn
from starlette.types import ASGIApp

from scantling.desk.app import desk_app
from scantling.desk.guard import GuardSettings, guarded
from scantling.desk.sharing import Share, gated, home_names

HERE = "127.0.0.1"
EVERYWHERE = "0.0.0.0"
PORT = 8347
LONGEST_WORD = 64_000  # bytes a page may say over its line
ENDS_WITHIN = 2  # seconds: what is kept is kept at once, and a plan in the making may be dropped


def run_desk(path: Path, port: int | None = None, browser: bool = True, share: bool = False) -> None:
    """Serve the folder `path` until stopped: on this machine only, or with `share` in the home network."""
    listening = _listening(port, EVERYWHERE if share else HERE)
    port = listening.getsockname()[1]
    sharing = Share(port) if share else None
    entrance = _entrance(path, port, sharing)
    address = f"http://{HERE}:{port}/"
    print(f"The desk is at {address}  (Ctrl+C ends it)", flush=True)  # noqa: T201
    if sharing:
        print(sharing.announcement, flush=True)  # noqa: T201
    if browser:
        Timer(0.5, webbrowser.open, (address,)).start()
    uvicorn.Server(_config(entrance)).run(sockets=[listening])


def _entrance(path: Path, port: int, share: Share | None) -> ASGIApp:
    app: ASGIApp = desk_app(path, share)
    inner = gated(app, share) if share else app
    return guarded(inner, GuardSettings.at(port, home_names() if share else ()))


def _config(app: ASGIApp) -> uvicorn.Config:
    # The gate trusts the address of the connection, so nobody may claim another in a header.
    return uvicorn.Config(
        app,
        log_level="warning",
        lifespan="on",
        ws="websockets-sansio",
        ws_max_size=LONGEST_WORD,
        proxy_headers=False,
        server_header=False,
        timeout_graceful_shutdown=ENDS_WITHIN,
    )


def _listening(port: int | None, host: str) -> socket.socket:
    """The port asked for; when none is asked for, the usual one or, if it is taken, any that is free."""
    for candidate in (PORT, 0) if port is None else (port,):
        found = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)  # else answers wait
        if os.name == "posix":  # else a desk that was killed keeps its port for a minute
            found.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            found.bind((host, candidate))
        except OSError:
            found.close()
            if candidate == port:
                raise
        else:
            return found
    raise AssertionError("any free port could be had")
