"""Every rule has a code, an explanation, what it guards, a failing and a near-miss passing sample, and its own file."""

from __future__ import annotations

import ast
import importlib
import inspect
from importlib.resources import files
from types import ModuleType

import pytest

from tests.checks.specs import said
from tilespec.checks import ENTRIES, RULES, SUBJECTS
from tilespec.checks.rule import INJURY, QUALITY, WATERPROOFING, Rule
from tilespec.diagnostics.catalogue import explain
from tilespec.diagnostics.entry import Entry
from tilespec.diagnostics.model import Severity
from tilespec.practice.lookup import PARENTS, practice
from tilespec.quantity import Limit
from tilespec.takeoff.types import TakeOff


@pytest.mark.parametrize("subject", SUBJECTS, ids=lambda s: s.__name__.rpartition(".")[2])
def test_every_file_is_a_rule_and_is_listed(subject: ModuleType) -> None:
    """A file without a `RULE` holds what several rules share."""
    names = sorted(p.name.removesuffix(".py") for p in files(subject.__name__).iterdir() if p.name.endswith(".py"))
    modules = {name: importlib.import_module(f"{subject.__name__}.{name}") for name in names if name != "__init__"}
    rules = {name: module.RULE for name, module in modules.items() if hasattr(module, "RULE")}
    assert set(rules) == {r.name.replace("-", "_") for r in subject.RULES}
    assert all(rule in RULES for rule in rules.values())


def test_every_folder_is_a_subject() -> None:
    folders = {p.name for p in files("tilespec.checks").iterdir() if p.is_dir() and not p.name.startswith("__")}
    assert folders == {s.__name__.rpartition(".")[2] for s in SUBJECTS}


@pytest.mark.parametrize("rule", RULES, ids=lambda r: r.name)
def test_the_limits_of_a_rule_are_in_the_practice(rule: Rule) -> None:
    known = {key for family in PARENTS for key in practice(family).keys()}
    assert set(rule.limits) <= known


@pytest.mark.parametrize("rule", RULES, ids=lambda r: r.name)
def test_a_rule_names_the_limits_that_its_file_asks_for(rule: Rule) -> None:
    """As far as the file writes their keys; what it asks for by a key that it puts together stands in `limits` too."""
    module = importlib.import_module(rule.find.__module__)
    asked = {
        call.args[0].value
        for call in ast.walk(ast.parse(inspect.getsource(module)))
        if isinstance(call, ast.Call) and isinstance(call.func, ast.Attribute) and call.func.attr in ("limit", "word", "find")
        and call.args and isinstance(call.args[0], ast.Constant) and isinstance(call.args[0].value, str)
    }  # fmt: skip
    assert asked - set(rule.limits) == set()
    assert len(set(rule.limits)) == len(rule.limits)


def test_codes_and_names_are_used_once_and_rules_stand_by_code() -> None:
    assert len({e.code for e in ENTRIES}) == len({e.name for e in ENTRIES}) == len(ENTRIES)
    assert [r.code for r in RULES] == sorted(r.code for r in RULES)
    assert all(e.code.startswith("T2") and e.stage == "checks" for e in ENTRIES)


@pytest.mark.parametrize("rule", RULES, ids=lambda r: r.name)
def test_every_rule_says_what_it_guards_and_what_it_needs(rule: Rule) -> None:
    assert rule.guards in (INJURY, WATERPROOFING, QUALITY)
    assert rule.needs in ("job", "takeoff", "sequence")
    assert isinstance(rule.severity, Severity)
    # One sentence on why it matters, one on what to do: two paragraphs at least.
    assert rule.explanation and len(rule.explanation.strip().split("\n\n")) >= 2
    if rule.guards != QUALITY:
        assert "cannot be deviated from" in " ".join(rule.explanation.split())


@pytest.mark.parametrize("entry", ENTRIES, ids=lambda e: e.name)
def test_the_failing_sample_fails(entry: Entry) -> None:
    found = said(entry.bad)
    ours = [d for d in found if d.name == entry.name]
    assert ours
    # The sample shows its own fault: no mistake of the language beside it.
    assert {d.stage for d in found} == {"checks"}
    for d in ours:
        assert (d.code, d.severity) == (entry.code, entry.severity)
        assert d.message[0] == d.message[0].upper() or not d.message[0].isalpha() or "-" in d.message.split()[0]
        assert d.message.endswith(".") and d.help.endswith((".", "?")) and d.primary.text
        assert 0 <= d.primary.span.start < d.primary.span.end <= len(entry.bad)


@pytest.mark.parametrize("entry", ENTRIES, ids=lambda e: e.name)
def test_the_passing_sample_passes_and_is_a_near_miss(entry: Entry) -> None:
    assert [d.message for d in said(entry.good)] == []
    bad, good = entry.bad.splitlines(), entry.good.splitlines()
    different = [a for a in bad if a not in good] + [b for b in good if b not in bad]
    assert 0 < len(different) <= 3


@pytest.mark.parametrize("entry", ENTRIES, ids=lambda e: e.name)
def test_a_fix_mends_what_it_offers_to_mend(entry: Entry) -> None:
    from tests.checks.specs import mended

    for d in said(entry.bad):
        if d.name == entry.name and d.fixes:
            assert entry.name not in [f.name for f in said(mended(entry.bad, d))]


@pytest.mark.parametrize("entry", ENTRIES, ids=lambda e: e.name)
def test_explain_knows_it(entry: Entry) -> None:
    assert explain(entry.code) == explain(entry.name) == entry
    assert entry.explanation and entry.title


def test_rules_that_need_the_takeoff_wait_for_it() -> None:
    """While somebody types there is no take-off: the rules of the job alone are told, the others wait."""
    from tests.checks.specs import PATH
    from tilespec import pipeline
    from tilespec.checks import check
    from tilespec.workspace.host import MemoryHost

    heavy = explain("tiling-too-heavy-for-base").bad
    plan = pipeline.compile(PATH, MemoryHost({PATH: heavy})).plan
    assert plan is not None and isinstance(plan.takeoff, TakeOff)
    assert "tiling-too-heavy-for-base" in [d.name for d in check(plan.job, plan.practice, plan.takeoff, plan.sequence)]
    assert "tiling-too-heavy-for-base" not in [d.name for d in check(plan.job, plan.practice)]


def test_a_limit_from_memory_says_so_in_the_message() -> None:
    from tilespec.checks.rule import cited

    limit = practice("US").limit("work-temperature-min")
    assert isinstance(limit.why, Limit) and limit.why.seen == "memory"
    assert cited(limit) == "Limit: coldest air and base to work in, 5 C (EN, which US borrows): common practice; to be confirmed."
    joint = cited(practice("UK").limit("joint-min-floor"))
    assert joint.startswith("Limit: narrowest joint on a floor, 3 mm (UK): NHBC Standards 9.1.7")
