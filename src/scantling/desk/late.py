"""Groups of pages brought in when one of them is first asked for, so that the first page waits less."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from importlib import import_module

from starlette.routing import BaseRoute, Match
from starlette.types import Receive, Scope, Send

CHOSEN = "scantling.late"


@dataclass(eq=False)
class Late(BaseRoute):
    """The `routes` of a module, for addresses that match `path`."""

    path: str
    module: str

    @cached_property
    def routes(self) -> Sequence[BaseRoute]:
        """The routes themselves; asking for them brings the module in."""
        found: Sequence[BaseRoute] = import_module(self.module).routes
        return found

    def matches(self, scope: Scope) -> tuple[Match, Scope]:
        """The best of its routes: one that takes the method as well, if there is one."""
        if "path" not in scope or not re.match(self.path, scope["path"]):
            return Match.NONE, {}
        near: tuple[Match, Scope] = (Match.NONE, {})
        for route in self.routes:
            match, child = route.matches(scope)
            if match is Match.FULL or (match is Match.PARTIAL and near[0] is Match.NONE):
                near = (match, {**child, CHOSEN: route})
            if match is Match.FULL:
                break
        return near

    async def handle(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Hand over to the route that matched."""
        route: BaseRoute = scope[CHOSEN]
        await route.handle(scope, receive, send)


def every(routes: Iterable[BaseRoute]) -> Iterator[BaseRoute]:
    """All routes, those of late groups one by one; brings their modules in."""
    for route in routes:
        if isinstance(route, Late):
            yield from route.routes
        else:
            yield route
