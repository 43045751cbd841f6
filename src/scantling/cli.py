"""The command line: one verb a job, files in, files out.

Exit code 0: done. 1: done, and a must-fix finding stands. 2: the input cannot be used.
Only this module, `printing` and `showing` know a screen; heavy imports wait until a verb needs them.
"""

from __future__ import annotations

import errno
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from io import TextIOWrapper
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer
from typer.core import TyperGroup

from scantling import __version__
from scantling.errors import ReadError, ScantlingError

if TYPE_CHECKING:
    from scantling.packet.pdf import Paper
    from scantling.plan import Plan
    from scantling.quantity.kinds import LengthUnit
    from scantling.shop.model import Shop


class Verbs(TyperGroup):
    """The verbs; what a maker got wrong is told on the error stream, with exit code 2."""

    def invoke(self, ctx: Any) -> Any:
        try:
            return super().invoke(ctx)
        except ScantlingError as error:
            typer.echo(str(error), err=True)
        except OSError as error:
            if error.errno == errno.EPIPE:
                raise
            typer.echo(_file_trouble(error), err=True)
        raise typer.Exit(BAD_INPUT)


def _file_trouble(error: OSError) -> str:
    where = f'"{error.filename}": ' if error.filename else ""
    return f"{where}{error.strerror or error}"


app = typer.Typer(
    cls=Verbs,
    help="From a piece file and a shop file to a checked plan that can be built.",
    no_args_is_help=True,
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
)

PieceFile = Annotated[Path, typer.Argument(help="The piece file.", show_default=False)]
ShopFile = Annotated[
    Path | None,
    typer.Option("--shop", help="The shop file; without it, shop.yaml beside the piece.", show_default=False),
]
RecordFile = Annotated[
    Path | None, typer.Option("--record", help="What was measured while building.", show_default=False)
]
AsJson = Annotated[bool, typer.Option("--json", help="Print data for other programs.")]
Quiet = Annotated[bool, typer.Option("--quiet", "-q", help="Print nothing but errors.")]

Seconds = Annotated[
    float,
    typer.Option(
        "--seconds", min=0.1, max=3600.0, help="How long to look for a better way to cut the boards; try 10."
    ),
]

MUST_FIX = 1
BAD_INPUT = 2


@app.callback(invoke_without_command=True)
def top(version: Annotated[bool, typer.Option("--version", help="Print the version.")] = False) -> None:
    """Plan a piece of furniture from the boards on the rack."""
    if version:
        typer.echo(__version__)
        raise typer.Exit


@app.command()
def begin(
    name: Annotated[str, typer.Argument(help="Name of the new piece; without it, lists the examples.")] = "",
    like: Annotated[str, typer.Option("--like", help="The example to start from.")] = "sewing-desk",
    folder: Annotated[Path, typer.Option("--in", help="Folder to put it in.")] = Path(),
    quiet: Quiet = False,
) -> None:
    """Start a new piece as a copy of an example, with a shop to go with it."""
    from scantling.starting import begin_piece, example_names

    if not name:
        typer.echo("\n".join(example_names()))
        return
    _say(quiet, *(f"wrote {path}" for path in begin_piece(name, like, folder)))


@app.command()
def check(
    piece: PieceFile,
    shop: ShopFile = None,
    record: RecordFile = None,
    json: AsJson = False,
    quiet: Quiet = False,
) -> None:
    """Say what is wrong with a piece, and the smallest change that mends it."""
    plan = _planned(piece, shop, record, quiet or json)
    _print(plan, "findings", json, quiet)
    _leave(plan)


@app.command()
def plan(
    piece: PieceFile,
    shop: ShopFile = None,
    record: RecordFile = None,
    out: Annotated[Path, typer.Option("--out", help="Folder for the packet.")] = Path("out"),
    paper: Annotated[str, typer.Option("--paper", help="letter or a4.")] = "letter",
    units: Annotated[str, typer.Option("--units", help="inches or mm; without it, the file's own.")] = "",
    seconds: Seconds = 1.0,
    allow_must_fix: Annotated[
        bool, typer.Option("--allow-must-fix", help="Exit 0 though must-fix findings stand.")
    ] = False,
    json: AsJson = False,
    quiet: Quiet = False,
) -> None:
    """Make the whole plan and write the packet: print, page, lists and models."""
    from scantling.packet import write_packet

    sheet, unit = _paper(paper), _units(units)
    out.mkdir(parents=True, exist_ok=True)
    worked_out = _planned(piece, shop, record, quiet or json, seconds)
    missing: list[str] = []
    with _progress(quiet or json) as tell:
        tell("drawing and setting the packet")
        written = write_packet(worked_out, out, paper=sheet, units=unit, tell=missing.append)
    _print(worked_out, "summary", json, quiet, unit)
    _note(quiet or json, *missing)
    _say(quiet or json, *(f"wrote {path}" for path in written))
    if not allow_must_fix:
        _leave(worked_out)


@app.command()
def cuts(
    piece: PieceFile,
    shop: ShopFile = None,
    record: RecordFile = None,
    seconds: Seconds = 1.0,
    json: AsJson = False,
    quiet: Quiet = False,
) -> None:
    """Show which part comes from which board, cut by cut, and what to buy."""
    plan = _planned(piece, shop, record, quiet or json, seconds)
    _print(plan, "cuts", json, quiet)
    _leave(plan)


@app.command()
def parts(
    piece: PieceFile,
    shop: ShopFile = None,
    record: RecordFile = None,
    json: AsJson = False,
    quiet: Quiet = False,
) -> None:
    """List the parts with their finished and overall sizes."""
    plan = _planned(piece, shop, record, quiet or json)
    _print(plan, "parts", json, quiet)
    _leave(plan)


@app.command()
def desk(
    folder: Annotated[Path, typer.Argument(help="The folder of pieces; without it, this one.")] = Path(),
    port: Annotated[int | None, typer.Option("--port", help="The port to listen on.")] = None,
    no_browser: Annotated[bool, typer.Option("--no-browser", help="Do not open a browser.")] = False,
    share: Annotated[
        bool, typer.Option("--share", help="Open it to the home network too, with a pass code.")
    ] = False,
) -> None:
    """Open the desk: pieces, rack, plan and build in the browser of this machine."""
    from scantling.desk.serving import run_desk

    if not folder.is_dir():
        raise ScantlingError(f'"{folder}" is no folder; name the one your pieces lie in')
    run_desk(folder.resolve(), port, browser=not no_browser, share=share)


def main() -> None:
    """Run the command line; a maker's mistake ends in a message, never in a traceback."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(errors="replace")  # a screen that lacks "×" shows "?" in its place
    app()


def _planned(piece: Path, shop: Path | None, record: Path | None, quiet: bool, seconds: float = 1.0) -> Plan:
    from scantling.piece import read_piece, read_record
    from scantling.piece.model import NO_RECORD
    from scantling.plan import make_plan

    beside = [path.parent for path in (piece, shop, record) if path]
    with _shown_in_its_line(beside), _progress(quiet) as tell:
        document = read_piece(piece)
        measured = read_record(record) if record else NO_RECORD
        return make_plan(document, _shop(piece, shop, quiet), measured, tell, seconds=seconds)


def _shop(piece: Path, shop: Path | None, quiet: bool) -> Shop:
    from scantling.shop import default_shop, read_shop

    beside = piece.parent / "shop.yaml"
    if shop is None and not beside.is_file():
        _note(quiet, "no shop file: the trade's usual sizes and invented prices stand in")
        return default_shop()
    return read_shop(shop or beside)


@contextmanager
def _shown_in_its_line(folders: list[Path]) -> Iterator[None]:
    """An error told with the line of the maker's file it speaks of."""
    try:
        yield
    except ReadError as error:
        from scantling.showing import with_line

        raise ScantlingError(with_line(error, folders)) from None


def _print(plan: Plan, what: str, json: bool, quiet: bool, units: LengthUnit | None = None) -> None:
    from scantling import printing

    if json:
        typer.echo(printing.as_json(plan, what))
    elif not quiet:
        printing.show(plan, what, units)


def _progress(quiet: bool) -> Progress:
    return Progress(quiet or not sys.stderr.isatty())


class Progress:
    """A line on the error stream that says what is being done; silent when told to be."""

    def __init__(self, silent: bool) -> None:
        self.silent = silent

    def __enter__(self) -> Callable[[str], None]:
        return self.tell

    def __exit__(self, *_: object) -> None:
        self.tell("")

    def tell(self, doing: str) -> None:
        if not self.silent:
            print(f"\r\x1b[K{doing}", end="", file=sys.stderr, flush=True)  # noqa: T201


def _paper(text: str) -> Paper:
    papers: dict[str, Paper] = {"letter": "letter", "a4": "a4"}
    if text.lower() not in papers:
        raise ScantlingError(f'paper is "{text}"; write letter or a4')
    return papers[text.lower()]


def _units(text: str) -> LengthUnit | None:
    from scantling.quantity.kinds import LengthUnit

    if not text:
        return None
    if text.lower() not in ("inches", "mm"):
        raise ScantlingError(f'units are "{text}"; write inches or mm')
    return LengthUnit(text.lower())


def _leave(plan: Plan) -> None:
    if plan.must_fix:
        raise typer.Exit(MUST_FIX)


def _say(quiet: bool, *lines: str) -> None:
    if not quiet:
        for line in lines:
            typer.echo(line)


def _note(quiet: bool, *lines: str) -> None:
    """What is told beside the answer, on the error stream."""
    if not quiet:
        for line in lines:
            typer.echo(line, err=True)


if __name__ == "__main__":
    main()
