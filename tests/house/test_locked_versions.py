"""The lock files hold what pyproject.toml asks for, exactly and with hashes."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest
from packaging.markers import Marker
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name
from packaging.version import Version

import app

ROOT = Path(__file__).resolve().parents[2]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
PYTHONS = ("3.11", "3.12", "3.13", "3.14")


def pins(name: str) -> list[Requirement]:
    """The requirements of a lock file, without their hashes."""
    text = (ROOT / name).read_text(encoding="utf-8").replace("\\\n", " ")
    lines = [line for line in text.splitlines() if line and not line.startswith("#")]
    return [Requirement(re.sub(r"\s+--hash=\S+", "", line)) for line in lines]


def applies(marker: Marker | None, python: str) -> bool:
    """Whether a line applies on this Python (3.11 means 3.11.9 too)."""
    return marker is None or marker.evaluate({"python_version": python, "python_full_version": f"{python}.9"})


@pytest.mark.parametrize("python", PYTHONS)
@pytest.mark.parametrize(
    ("lock", "wanted"),
    [
        ("requirements.lock", PROJECT["dependencies"]),
        ("requirements-dev.lock", PROJECT["dependencies"] + PROJECT["optional-dependencies"]["dev"]),
    ],
)
def test_every_part_is_pinned_once_within_its_range(lock: str, wanted: list[str], python: str) -> None:
    locked = [pin for pin in pins(lock) if applies(pin.marker, python)]
    versions = {canonicalize_name(pin.name): str(pin.specifier) for pin in locked}
    assert len(versions) == len(locked)
    for line in wanted:
        part = Requirement(line)
        if applies(part.marker, python):
            version = versions[canonicalize_name(part.name)]
            assert version.startswith("==")
            assert part.specifier.contains(Version(version[2:])), line


@pytest.mark.parametrize("lock", ["requirements.lock", "requirements-dev.lock"])
def test_every_pin_has_hashes(lock: str) -> None:
    text = (ROOT / lock).read_text(encoding="utf-8").replace("\\\n", " ")
    lines = [line for line in text.splitlines() if line and not line.startswith("#")]
    assert [line for line in lines if "--hash=sha256:" not in line] == []


def test_the_check_runs_on_the_very_parts_that_the_program_runs_on() -> None:
    checked = {str(pin) for pin in pins("requirements-dev.lock")}
    assert [str(pin) for pin in pins("requirements.lock") if str(pin) not in checked] == []


def test_below_3_12_qt_is_the_build_that_keeps_its_references() -> None:
    qt = [pin for pin in pins("requirements.lock") if canonicalize_name(pin.name) == "pyside6-essentials"]
    by_python = {python: [str(p.specifier) for p in qt if applies(p.marker, python)] for python in PYTHONS}
    assert by_python["3.11"] == ["==6.11.2"]
    assert by_python["3.12"] == by_python["3.13"] == ["==6.12.0"]


def test_the_version_is_one() -> None:
    assert PROJECT["version"] == app.__version__
