"""The rows of a large book on their way into it: each gets its key at once, and goes in behind what it points at."""

from __future__ import annotations

from collections import defaultdict
from typing import Any

from app.book.bulk import Laying

# In the order in which one points at another.
ORDER = (
    "customers", "units", "transports", "jobs", "fittings", "reported_faults", "things_left",
    "start_up_results", "case_events", "trials", "readings", "part_changes", "part_moves", "labour",
    "job_notes", "messages", "modifications", "agreements", "charges", "safety_tests", "safety_steps",
    "invoices", "invoice_lines", "payments", "papers", "hand_backs", "flags",
)  # fmt: skip


class Rows:
    """Rows that wait. ``add`` gives the key; a row that is ``kept`` can still be filled until the end."""

    def __init__(self, laying: Laying) -> None:
        self._laying = laying
        self._next: dict[str, int] = {}
        self._waiting: dict[str, list[dict[str, Any]]] = defaultdict(list)
        self._kept: dict[str, list[dict[str, Any]]] = defaultdict(list)

    def add(self, table: str, **values: Any) -> int:
        """A row as it stands."""
        return self.add_row(table, values)

    def add_row(self, table: str, values: dict[str, Any]) -> int:
        """The same for columns that are filled further while the row waits."""
        values["id"] = key = self._key(table)
        self._waiting[table].append(values)
        return key

    def keep(self, table: str, **values: Any) -> dict[str, Any]:
        """A row that something later may still end or reverse."""
        row = {"id": self._key(table), **values}
        self._kept[table].append(row)
        return row

    def lay(self) -> None:
        """Lay down what waits."""
        for table in ORDER:
            self._laying.lay(table, self._waiting.pop(table, ()))

    def finish(self) -> None:
        """Lay down everything."""
        self.lay()
        self._waiting, self._kept = self._kept, defaultdict(list)
        self.lay()

    def _key(self, table: str) -> int:
        key = self._next.get(table)
        if key is None:
            key = self._laying.free_key(table)
        self._next[table] = key + 1
        return key
