"""The player that a part was taken out of, among those that stay here as donors."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from app.screens.kit.combo import Combo
from app.work.office.stock import Donor


class DonorField(Combo):
    """Donors by player and serial number. A draft's donor is taken up once it is known which donors there are.

    ``otherwise`` is offered first where a part need not come out of a donor; its value is None.
    """

    def __init__(self, otherwise: str = "") -> None:
        self._wanted: Any = None
        self._otherwise: list[tuple[Any, str]] = [(None, otherwise)] if otherwise else []
        super().__init__("", self._otherwise, None, width=340)

    def set_value(self, value: Any) -> None:
        """Choose a donor by its key, also one that is not offered yet."""
        self._wanted = value
        if value is None:
            self.setCurrentIndex(0 if self._otherwise else -1)
        elif value in self._keys:
            super().set_value(value)

    def show_donors(self, found: Sequence[Donor]) -> bool:
        """Offer these; gives whether there are any."""
        words = [(one.unit_id, ", ".join(filter(None, (one.player, one.serial)))) for one in found]
        chosen = self.value()
        options = [*self._otherwise, *words]
        wanted = chosen if chosen is not None else self._wanted
        keys = [key for key, _ in options]
        self.set_options(options, wanted if wanted in keys else next(iter(keys), None))
        return bool(words)
