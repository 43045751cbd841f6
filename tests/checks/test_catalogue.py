"""The table of rules, the page written from it, and the codes the checks use."""

import re
from itertools import groupby
from pathlib import Path

import pytest

from scantling.checks import CHECKS, all_rules
from scantling.checks.catalogue import findings_page
from scantling.checks.holding import holding
from scantling.checks.rules import rule
from scantling.piece.methods import METHODS

ROOT = Path(__file__).parents[2]
SOURCE = ROOT / "src" / "scantling" / "checks"


def test_the_page_is_up_to_date():
    """Written by `findings_page()`: print it without a last newline into the file after a change."""
    assert (ROOT / "docs" / "findings.md").read_text(encoding="utf-8") == findings_page()


def test_every_rule_has_a_source_and_a_code_of_its_own():
    codes = [each.code for each in all_rules()]
    assert len(codes) == len(set(codes))
    assert all(each.source and each.check for each in all_rules())


def test_rules_of_one_check_stand_together():
    checks = [name for name, _ in groupby(all_rules(), key=lambda each: each.check)]
    assert len(checks) == len(set(checks))


def test_every_rule_is_used_and_every_used_code_is_a_rule():
    asking = [*SOURCE.glob("*.py"), SOURCE.parent / "plan.py"]
    text = "".join(path.read_text(encoding="utf-8") for path in asking)
    quoted = set(re.findall(r'"([a-z][^"\n]+)"', text))
    assert {each.code for each in all_rules()} <= quoted
    for code in re.findall(r'rule\("([^"]+)"\)', text):
        assert rule(code).code == code


def test_every_method_of_the_language_is_known_to_hold_somehow():
    for method in METHODS:
        assert holding(method).holds in {"rigid", "bolted", "slides", "floats", "rests"}


def test_checks_are_asked_in_a_fixed_order():
    assert len(CHECKS) == len(set(CHECKS)) == 21


def test_an_unknown_code_is_refused():
    with pytest.raises(KeyError):
        rule("no such rule")
