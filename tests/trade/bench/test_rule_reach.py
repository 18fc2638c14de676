"""What a rule is said to look at and to raise is what stands in its code: else a change would pass it by."""

from __future__ import annotations

import ast
import inspect
from collections.abc import Iterator
from dataclasses import fields
from types import FunctionType, ModuleType

import pytest

from app.trade.bench import flags_coil, flags_job, flags_laser, flags_safety
from app.trade.bench.facts import JobFacts
from app.trade.bench.flags import ASKED
from app.trade.bench.rule_reach import REACH, Ask, asked_about
from app.trade.bench.rules import RULES

MODULES = (flags_coil, flags_job, flags_laser, flags_safety)
OF_FINALS = {"finals": "readings"}  # properties of the facts, and the field behind each


def functions(module: ModuleType) -> dict[str, FunctionType]:
    return {name: thing for name, thing in vars(module).items() if isinstance(thing, FunctionType)}


def called(rule: FunctionType, seen: set[FunctionType] | None = None) -> set[FunctionType]:
    """The rule and every function of the rules' modules that it calls, however far down."""
    seen = set() if seen is None else seen
    if rule in seen:
        return seen
    seen.add(rule)
    near = functions(inspect.getmodule(rule) or flags_job)
    for node in ast.walk(ast.parse(inspect.getsource(rule))):
        if isinstance(node, ast.Name) and node.id in near:
            called(near[node.id], seen)
    return seen


def looked_at(rule: Ask) -> Iterator[str]:
    for function in called(rule):  # type: ignore[arg-type]
        for node in ast.walk(ast.parse(inspect.getsource(function))):
            if (
                isinstance(node, ast.Attribute)
                and isinstance(node.value, ast.Name)
                and node.value.id == "facts"
            ):
                yield OF_FINALS.get(node.attr, node.attr)


def said(rule: Ask) -> Iterator[str]:
    for function in called(rule):  # type: ignore[arg-type]
        for node in ast.walk(ast.parse(inspect.getsource(function))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "flag":
                (rule_id, *_) = node.args
                assert isinstance(rule_id, ast.Constant), "a rule names its flag plainly"
                yield str(rule_id.value)


@pytest.mark.parametrize("rule", ASKED, ids=lambda rule: rule.__name__)
def test_a_rule_looks_at_what_it_is_said_to_and_raises_what_it_is_said_to(rule: Ask) -> None:
    assert set(looked_at(rule)) == REACH[rule].looks_at
    assert set(said(rule)) == REACH[rule].says


def test_every_rule_and_every_flag_is_reached() -> None:
    assert tuple(REACH) == ASKED
    assert frozenset().union(*(reach.says for reach in REACH.values())) == RULES.keys() - {"pile"}
    assert all(reach.looks_at <= {field.name for field in fields(JobFacts)} for reach in REACH.values())


def test_only_rules_that_look_at_what_changed_are_asked() -> None:
    assert asked_about(frozenset({"balance"})) == (flags_job.unpaid,)
    assert asked_about(frozenset()) == ()
    assert asked_about({"comeback", "discs"}) == (flags_job.comeback, flags_job.disc_inside)
