"""The whole check, or parts of it; started by `python3 run.py test`, so that everything it needs is there."""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
import sysconfig
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
REPORT = ROOT / ".coverage.json"
SCRIPTS = Path(sysconfig.get_path("scripts"))
CODE = ("app", "tests", "migrations", "demo_db", "run.py", ".ci")


@dataclass(frozen=True)
class Step:
    """One part of the check: its name, what it looks at, what its failing means, and its command."""

    name: str
    looks_at: str
    failing_means: str
    command: Callable[[], Sequence[str]]


def python(*words: str) -> list[str]:
    """A command of this environment's Python; nothing is written beside the code but caches."""
    return [sys.executable, *words]


def code() -> list[str]:
    """The folders and files of ours that exist."""
    return [name for name in CODE if (ROOT / name).exists()]


def tests() -> list[str]:
    """Every test with branch coverage, on as many processes as there are cores, four at most."""
    REPORT.unlink(missing_ok=True)
    cores = min(os.cpu_count() or 1, 4)
    spread = ["-n", str(cores), "--dist", "worksteal"] if cores > 1 else []
    patience = ["--timeout=900"] if os.environ.get("SPINDLEBOOK_LONG") == "1" else []
    return python("-m", "pytest", *spread, *patience, "--cov", f"--cov-report=json:{REPORT}")


STEPS = (
    Step(
        "format",
        "layout",
        "files are not laid out by ruff format",
        lambda: python("-m", "ruff", "format", "--check", *code()),
    ),
    Step(
        "lint",
        "ruff's rules",
        "a rule of pyproject.toml is broken",
        lambda: python("-m", "ruff", "check", *code()),
    ),
    Step("types", "mypy --strict", "types do not add up", lambda: python("-m", "mypy", "--strict", "app")),
    Step(
        "imports",
        "the floors",
        "an import goes where the floors forbid it",
        lambda: [str(SCRIPTS / "lint-imports")],
    ),
    Step("tests", "pytest", "a test fails, or nothing was tested", tests),
    Step(
        "coverage",
        "the lines and branches tested",
        "too little is tested",
        lambda: python(str(ROOT / ".ci" / "floors.py"), str(REPORT)),
    ),
)


def main(words: list[str]) -> int:
    """Run the steps named (all when none is), say what failed, and return 0 only when nothing did."""
    own, marker, for_pytest = split(words)
    parser = argparse.ArgumentParser(
        prog="run.py test",
        description="Checks Spindlebook. Without words: everything, with coverage.",
        epilog="run.py test -- WORDS hands the words to pytest alone, without coverage: "
        "run.py test -- tests/trade -k limit",
    )
    parser.add_argument(
        "steps",
        nargs="*",
        metavar="STEP",
        help="; ".join(f"{step.name}: {step.looks_at}" for step in STEPS),
    )
    known = {step.name: step for step in STEPS}
    names = parser.parse_args(own).steps
    for name in names:
        if name not in known:
            parser.error(f"no step is called {name}: choose from {', '.join(known)}")
    os.chdir(ROOT)
    if marker:
        return subprocess.call(python("-m", "pytest", *for_pytest))
    return report([run(known[name]) for name in names or known])


def split(words: list[str]) -> tuple[list[str], bool, list[str]]:
    """The words before `--`, whether it is there, and the words after it."""
    if "--" not in words:
        return words, False, []
    at = words.index("--")
    return words[:at], True, words[at + 1 :]


def run(step: Step) -> tuple[Step, int, float]:
    """The step, its exit code and its seconds; its own words go straight to the screen."""
    print(f"\n--- {step.name}: {step.looks_at}", flush=True)
    begun = time.monotonic()
    exit_code = subprocess.call(step.command())
    return step, exit_code, time.monotonic() - begun


def report(results: Sequence[tuple[Step, int, float]]) -> int:
    """A line for each step and one sentence for all; 0 when every step passed."""
    print(f"\n--- The check on Python {sys.version.split()[0]}")
    for step, exit_code, seconds in results:
        if exit_code == 0:
            print(f"{step.name:<10}good    {seconds:6.1f} s")
        else:
            print(f"{step.name:<10}FAILED  {seconds:6.1f} s   {step.failing_means}; its words stand above")
    failed = [step.name for step, exit_code, _ in results if exit_code != 0]
    took = sum(seconds for _, _, seconds in results)
    if not failed:
        print(f"Everything is good, in {took:.0f} s.")
        return 0
    print(f"Not good yet. To look again at what failed: python3 run.py test {' '.join(failed)}")
    return 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
