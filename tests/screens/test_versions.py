"""What the program is made from, told as it is."""

from __future__ import annotations

import tomllib
from importlib.metadata import metadata
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from app.screens import versions
from app.screens.versions import PARTS, parts

ROOT = Path(__file__).resolve().parents[2]


def test_the_parts_are_those_that_are_installed_with_it() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    wanted = {canonicalize_name(Requirement(line).name) for line in project["dependencies"]}
    assert {canonicalize_name(name) for name in PARTS} == wanted


@pytest.mark.parametrize("name", PARTS)
def test_the_licence_is_what_the_part_says_of_itself(name: str) -> None:
    told = metadata(name)
    said = " ".join(
        [
            told.get("License-Expression") or "",
            (told.get("License") or "")[:80],
            *(line for line in told.get_all("Classifier") or [] if line.startswith("License")),
        ]
    ).casefold()
    first = PARTS[name].split()[0].removesuffix("-only").removesuffix("-CMU").removesuffix("-Clause")
    assert first.split("-")[0].casefold() in said


def test_each_has_its_version_and_fonts_have_none() -> None:
    found = {part.name: part for part in parts()}
    assert found["SQLAlchemy"].version.startswith("2.1")
    assert found["Source Sans Pro"].version == ""


def test_a_part_whose_files_do_not_tell_is_still_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(versions, "PARTS", {"surely-not-installed": "MIT"})
    assert parts()[0] == versions.Part("surely-not-installed", "", "MIT")
