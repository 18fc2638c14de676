"""Data that ships with the program, read from assets/ once."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

ASSETS = Path(__file__).resolve().parents[2] / "assets"


@cache
def shipped(name: str) -> Any:
    """The parsed content of ``assets/<name>.json``, e.g. ``shipped("bench/quantities")``. Do not change it."""
    return json.loads((ASSETS / f"{name}.json").read_text(encoding="utf-8"))
