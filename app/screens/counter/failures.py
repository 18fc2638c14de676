"""How the counter tells an error that belongs to no field: the same way as every room."""

from __future__ import annotations

from app.screens.bench.failures import tell

__all__ = ["tell"]
