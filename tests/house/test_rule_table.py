"""The table of rules in DEVELOPERS.md tells every rule, its level and its threshold as the code has them."""

from __future__ import annotations

import ast
import os
from dataclasses import fields
from pathlib import Path

import pytest

from app.trade.bench.flags_laser import _POWER_BIG, _USUAL_MOST
from app.trade.bench.rules import RULES
from app.trade.bench.thresholds import _STRICTER_ONLY, DEFAULTS, Thresholds

ROOT = Path(__file__).resolve().parents[2]
PAPER = ROOT / "DEVELOPERS.md"
BENCH = ROOT / "app" / "trade" / "bench"
BEGIN, END = "<!-- rules: made by tests/house/test_rule_table.py -->", "<!-- end of rules -->"

# When each speaks; names in braces are thresholds. An owner's mark is told where one is needed.
WHEN = {
    "interlock": "laser interlock or cover switch bypassed, or asked for",
    "fuse": "fuse of another rating, speed or type, or bridged",
    "mains_wiring": "mains wiring, cord, switch or selector changed",
    "earth": "protective conductor removed, lifted or over its limit",
    "safety_part": "part that protects people of another type",
    "part_over": "added part above 100 % of its rating",
    "safety_failed": "a step beyond the standard's limit, or not in order",
    "beyond_agreed": "work and parts above the agreed amount; caution from {beyond_agreed_from} % of it",
    "final_outside": "final reading outside; a stop where its limit holds the job",
    "coil_up_big": "coil current above {coil_up_big} times the maker's, all live changes together; owner",
    "coil_up": "coil current above {coil_up} times the maker's",
    "coil_hot": "coil warms by more than {coil_hot} K, by its resistance",
    "laser_up_big": "laser above {laser_up_big} % of its label, or light above {power_big} times its limit; owner",
    "laser_up": "after a change of ours above {laser_up} % of the label; as found outside its limit (usual: "
    "{usual_most} %)",
    "supply_changed": "rail more than {supply_changed} % off; above {supply_changed_big} % the owner",
    "other_type": "part, transport or pick-up of another type; owner",
    "part_warm": "added part above {part_warm} % of its rating",
    "unknown_mod": "a change found that is not ours, not assessed yet",
    "stacked": "two or more live changes on one circuit",
    "trimmer_blind": "trimmer turned without a reading before; a note once all finals are within",
    "comeback": "same fault group inside {comeback_days} days",
    "disc_inside": "a disc of the customer's is here",
    "transit_lock": "its state is not noted; a caution before power and before posting",
    "pile": "{pile} or more open cautions on one job; owner",
    "final_close": "final too close to call, probability of conforming below {close_below}",
    "cal_overdue": "instrument past its date by more than {calibration_grace_days} days (a safety test: none)",
    "unpaid": "balance open",
}
# The gates hold by what is missing; which thresholds they look at, if any.
GATES = {
    "safety_missing": "mains inside, case opened, no test passed since it was closed",
    "final_missing": "final readings missing, or the player leaves worse than it came",
    "laser_no_power": "laser drive changed, light after the lens not measured",
    "not_agreed": "a change of ours stays without the customer's yes",
    "told": "a live change is not named on the paper",
    "disc_inside": "a disc of the customer's is here",
    "owner_sees": "a caution for the owner is not acknowledged",
    "unsafe_signed": "returned unsafe: warning not signed",
    "unsafe_tagged": "returned unsafe: plug not tagged",
}


def levels() -> dict[str, list[str]]:
    """The levels that the source gives each rule, by its calls of `flag`."""
    found: dict[str, set[str]] = {}
    for path in (*BENCH.glob("flags_*.py"), BENCH / "flags.py"):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        for call in ast.walk(tree):
            named = isinstance(call, ast.Call) and isinstance(call.func, ast.Name) and call.func.id == "flag"
            if not named or not isinstance(call.args[0], ast.Constant):
                continue
            parts = ast.walk(call.args[1])
            given = {n.attr.lower() for n in parts if isinstance(n, ast.Attribute)}
            if not given:  # a name: what it was given stands in the same file
                given = {
                    n.attr.lower()
                    for assign in ast.walk(tree)
                    if isinstance(assign, ast.Assign)
                    and ast.unparse(assign.targets[0]) == ast.unparse(call.args[1])
                    for n in ast.walk(assign.value)
                    if isinstance(n, ast.Attribute) and ast.unparse(n.value) == "Level"
                }
            found.setdefault(call.args[0].value, set()).update(given)
    order = ["stop", "caution", "note"]
    return {rule: sorted(given & set(order), key=order.index) for rule, given in found.items()}


def gate_ids() -> set[str]:
    """The ids that the source gives its gates."""
    tree = ast.parse((BENCH / "gates.py").read_text(encoding="utf-8"))
    ids = {
        word.value.value
        for call in ast.walk(tree)
        if isinstance(call, ast.Call) and isinstance(call.func, ast.Name) and call.func.id == "Gate"
        for word in call.keywords
        if word.arg == "rule" and isinstance(word.value, ast.Constant)
    }
    words = {n.value for n in ast.walk(tree) if isinstance(n, ast.Constant) and isinstance(n.value, str)}
    return ids | {word for word in words if word.startswith("unsafe_") and word in GATES}


def table() -> str:
    """The table as it has to stand."""
    numbers = {field.name: getattr(DEFAULTS, field.name) for field in fields(Thresholds)}
    numbers |= {"power_big": _POWER_BIG, "usual_most": _USUAL_MOST}
    given = levels()
    lines = ["| rule | level | speaks when | goes by | shop may set |", "|---|---|---|---|---|"]
    for rule, what in RULES.items():
        own = [name for name in numbers if "{" + name + "}" in WHEN[rule] and hasattr(DEFAULTS, name)]
        setting = "no"
        if own:
            setting = "stricter only" if set(own) <= _STRICTER_ONLY else "yes"
        row = (rule, ", ".join(given[rule]), WHEN[rule].format(**numbers), what.clears.key, setting)
        lines.append("| " + " | ".join(row) + " |")
    lines += [f"| {gate} | gate | {when} | what it asks for | no |" for gate, when in GATES.items()]
    return "\n".join(lines)


def test_the_table_of_rules_is_the_one_that_the_code_has() -> None:
    written = PAPER.read_text(encoding="utf-8")
    before, after = written.split(BEGIN)[0], written.split(END)[1]
    as_made = f"{before}{BEGIN}\n{table()}\n{END}{after}"
    if os.environ.get("SPINDLEBOOK_WRITE_RULES"):
        PAPER.write_text(as_made, encoding="utf-8")
    assert written == as_made, "SPINDLEBOOK_WRITE_RULES=1 makes this test write it anew"


def test_every_rule_and_gate_is_told() -> None:
    assert set(WHEN) == set(RULES) == set(levels())
    assert set(GATES) == gate_ids()


def test_every_threshold_is_told() -> None:
    told = " ".join(WHEN.values())
    for field in fields(Thresholds):
        assert "{" + field.name + "}" in told


@pytest.mark.parametrize(
    "rule", ["interlock", "fuse", "mains_wiring", "earth", "safety_part", "safety_failed"]
)
def test_what_protects_people_is_a_stop_that_no_setting_removes(rule: str) -> None:
    assert levels()[rule] == ["stop"]
    assert "{" not in WHEN[rule]
