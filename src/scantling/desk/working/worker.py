"""The process that plans: reads jobs on its standard input, answers on its standard output.

One way go (job, arguments); the other way words of how far it is, then (answer, trouble).
"""

from __future__ import annotations

import os
import sys
import traceback
from typing import Any

from scantling.desk.working.asked import Trouble
from scantling.desk.working.frames import put, taken
from scantling.desk.working.telling import listen
from scantling.errors import ScantlingError


def answered(job: Any, arguments: tuple[Any, ...]) -> tuple[Any, Trouble | None]:
    """What a job gives, or the trouble it met."""
    try:
        return job(*arguments), None
    except ScantlingError as error:
        return None, Trouble.of(error)
    except Exception:
        traceback.print_exc()
        return None, Trouble("something went wrong in Scantling itself; please report it")


def main() -> None:
    """Serve jobs until the other side closes. What jobs print goes to the error stream."""
    answers = os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())
    listen(lambda words: put(answers, words))
    while True:
        try:
            job, arguments = taken(sys.stdin.buffer)
        except EOFError:
            return
        put(answers, answered(job, arguments))


if __name__ == "__main__":
    main()
