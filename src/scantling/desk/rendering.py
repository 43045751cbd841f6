"""Pages and fragments from templates: escaped always, one set of words for all."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from hashlib import sha256
from importlib.resources import files
from typing import Any
from urllib.parse import quote

from jinja2 import Environment, PackageLoader, StrictUndefined
from starlette.requests import Request
from starlette.responses import HTMLResponse


@cache
def environment() -> Environment:
    """The templates. Every value is escaped; a name that is not there is an error."""
    made = Environment(
        loader=PackageLoader("scantling.desk", "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )
    made.globals["static"] = static_address
    made.filters["path"] = lambda words: quote(str(words), safe="")
    made.filters["ident"] = ident
    made.filters["sentence"] = sentence
    return made


def sentence(words: str) -> str:
    """With a capital at its beginning, and nothing else changed: names and boards keep their letters."""
    return words[:1].upper() + words[1:]


def ident(words: str) -> str:
    """A word for ids in a page that stands for any words."""
    return f"f{sha256(words.encode('utf-8', 'surrogatepass')).hexdigest()[:10]}"


@cache
def static_address(name: str) -> str:
    """The address of a file of ours, with its digest, so that browsers may keep it for good."""
    content = files("scantling.desk").joinpath("static", *name.split("/")).read_bytes()
    return f"/static/{name}?{sha256(content).hexdigest()[:12]}"


def rendered(template: str, context: Mapping[str, Any]) -> str:
    """One template as text."""
    return environment().get_template(template).render(context)


def page(request: Request, template: str, status: int = 200, **context: Any) -> HTMLResponse:
    """A whole page, or a fragment for htmx: the template decides. `request` stands in its context."""
    return HTMLResponse(rendered(template, {"request": request, **context}), status_code=status)


def fragments(request: Request, *templates: str, status: int = 200, **context: Any) -> HTMLResponse:
    """Several fragments in one answer; each template wraps itself in an `<hx-partial>`."""
    told = {"request": request, **context}
    return HTMLResponse("".join(rendered(name, told) for name in templates), status_code=status)
