"""The guard's layers in their order; the outermost dresses every answer, refusals too."""

from __future__ import annotations

from starlette.types import ASGIApp

from scantling.desk.guard.door import Door
from scantling.desk.guard.policy import Policy
from scantling.desk.guard.settings import GuardSettings
from scantling.desk.guard.sizes import BodyLimit


def guarded(app: ASGIApp, settings: GuardSettings) -> ASGIApp:
    """`app` behind the guard.

    Requests under a strange name, writes and sockets opened by strange pages, and bodies that are too
    large do not reach it; every answer carries the content policy. `app` itself turns errors into pages
    with `trouble_handlers`.
    """
    return Policy(Door(BodyLimit(app, settings.limits), settings.hosts), settings.hosts)
