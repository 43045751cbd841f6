"""The printed packet and labels. The only importer of typst; the template gets data, never markup."""

from __future__ import annotations

import json
from functools import lru_cache
from importlib.resources import as_file, files
from typing import Literal

import typst

from scantling.packet.glyphs import Legible

Paper = Literal["letter", "a4"]
Data = dict[str, object]
_PAPERS = {"letter": "us-letter", "a4": "a4"}


def packet_pdf(data: Data, paper: Paper) -> bytes:
    """Set the packet as a tagged PDF (PDF/UA-1). The same data give the same bytes.

    Characters the print face lacks are shown as a box, and the packet says in which texts.
    """
    text = _printable(data, paper)
    compiled = _setter().compile(format="pdf", timestamp=0, pdf_standards=["ua-1"], sys_inputs={"data": text})
    assert isinstance(compiled, bytes)
    return compiled


def labels_pdf(data: Data) -> bytes:
    """Set sheets of labels as a tagged PDF (PDF/UA-1); the paper is the one the data name."""
    text = json.dumps(Legible().data(data), ensure_ascii=False, sort_keys=True)
    setter = _setter("labels.typ")
    compiled = setter.compile(format="pdf", timestamp=0, pdf_standards=["ua-1"], sys_inputs={"data": text})
    assert isinstance(compiled, bytes)
    return compiled


def packet_pages(data: Data, paper: Paper, dots_per_inch: float) -> list[bytes]:
    """Every page of the packet as a PNG picture."""
    text = _printable(data, paper)
    compiled = _setter().compile(format="png", ppi=dots_per_inch, sys_inputs={"data": text})
    pages = compiled if isinstance(compiled, list) else [compiled]
    return [page for page in pages if page]


def _printable(data: Data, paper: Paper) -> str:
    legible = Legible()
    shown = legible.data(data)
    assert isinstance(shown, dict)
    shown |= {"paper": _PAPERS[paper], "unprintable": legible.changed}
    return json.dumps(shown, ensure_ascii=False, sort_keys=True)


@lru_cache(maxsize=2)
def _setter(template: str = "packet.typ") -> typst.Compiler:
    root = files("scantling.packet")
    with as_file(root.joinpath("templates")) as folder, as_file(root.joinpath("fonts")) as fonts:
        return typst.Compiler(
            folder / template, root=folder, font_paths=[fonts], ignore_system_fonts=True, sys_inputs={}
        )
