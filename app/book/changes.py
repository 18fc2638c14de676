"""What one action changed, so that screens reload only what they show."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Changes:
    """Ids touched by one action, by kind, and the names of the tables (``kinds``) that changed."""

    jobs: frozenset[int] = field(default_factory=frozenset)
    units: frozenset[int] = field(default_factory=frozenset)
    transports: frozenset[int] = field(default_factory=frozenset)
    customers: frozenset[int] = field(default_factory=frozenset)
    kinds: frozenset[str] = field(default_factory=frozenset)

    def __bool__(self) -> bool:
        return bool(self.kinds)
