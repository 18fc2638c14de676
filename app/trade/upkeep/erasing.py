"""Who has one person's data erased: what is gone cannot be brought back, so the owner signs for it."""

from __future__ import annotations

from app.trade.bench.stages import Mark

SIGNED_BY = Mark.OWNER
