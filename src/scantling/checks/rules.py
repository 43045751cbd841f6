"""The table of findings: each code with its severity, limit and source, read once from `data/rules.csv`."""

from __future__ import annotations

import csv
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files

from scantling.checks.finding import Finding, Mend, Severity
from scantling.errors import Place
from scantling.piece.model import PartName, Vec3

_SEVERITIES = {"must": Severity.MUST, "should": Severity.SHOULD, "know": Severity.KNOW}


@dataclass(frozen=True, slots=True)
class Rule:
    """One kind of finding. `limit` is None where each case has its own, then `limit_words` says how."""

    code: str
    check: str
    severity: Severity
    limit: float | None
    unit: str
    limit_words: str
    source: str
    judgement: bool

    @property
    def allowed(self) -> float:
        """The limit; for rules that have one."""
        assert self.limit is not None, self.code
        return self.limit

    def found(
        self,
        message: str,
        where: Iterable[PartName] = (),
        number: float | None = None,
        *,
        limit: float | None = None,
        mend: Mend | None = None,
        spot: Vec3 | None = None,
        pose: str | None = None,
        place: Place | None = None,
    ) -> Finding:
        """A finding under this rule; `limit` stands instead of the table's."""
        return Finding(
            check=self.check,
            code=self.code,
            severity=self.severity,
            message=message,
            where=tuple(where),
            number=number,
            limit=self.limit if limit is None else limit,
            unit=self.unit,
            source=self.source,
            mend=mend,
            spot=spot,
            pose=pose,
            place=place,
            judgement=self.judgement,
        )


def rule(code: str) -> Rule:
    """The rule of that code; KeyError for a code the table does not hold."""
    return _by_code()[code]


@lru_cache(maxsize=1)
def all_rules() -> tuple[Rule, ...]:
    """Every rule, in the order of the table."""
    text = files("scantling.checks").joinpath("data", "rules.csv").read_text(encoding="utf-8")
    return tuple(
        Rule(
            code=row["code"],
            check=row["check"],
            severity=_SEVERITIES[row["severity"]],
            limit=float(row["limit"]) if row["limit"] else None,
            unit=row["unit"],
            limit_words=row["limit_words"],
            source=row["source"],
            judgement=row["judgement"] == "yes",
        )
        for row in csv.DictReader(text.splitlines())
    )


@lru_cache(maxsize=1)
def _by_code() -> dict[str, Rule]:
    return {each.code: each for each in all_rules()}
