"""A field for an amount of the shop's money, read strictly and shown back as it was read."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from app.screens.kit.fields import Field
from app.screens.language import current, say
from app.trade.money import Money
from app.trade.office.amounts import parse_amount
from app.trade.refusal import Refusal


class MoneyField(Field):
    """``amount()`` is None while it is empty or cannot be read; ``is_wrong`` tells which."""

    def __init__(
        self, name: str, currency: str = "EUR", *, width: float = 74, parent: QWidget | None = None
    ) -> None:
        super().__init__(name, width=width, parent=parent)
        self._currency = currency
        self._amount: Money | None = None
        self.changed.connect(self._read)
        self.left.connect(self.settle)
        self.entered.connect(self.settle)

    def set_currency(self, currency: str) -> None:
        """The shop's money."""
        self._currency = currency
        self._read()

    def amount(self) -> Money | None:
        """What was read."""
        return self._amount

    @property
    def is_wrong(self) -> bool:
        """Whether something stands in it that is no amount."""
        return bool(self.text()) and self._amount is None

    def set_amount(self, amount: Money | None) -> None:
        """Put an amount in, without its currency."""
        self.set_text(current().number(amount.amount) if amount is not None else "")

    def settle(self) -> None:
        """Say what cannot be read; write an amount in full."""
        if self.is_wrong:
            self.set_error(self._why)
        elif self._amount is not None:
            self.set_amount(self._amount)

    def _read(self, _: str = "") -> None:
        self._amount, self._why = None, ""
        if self.text():
            try:
                self._amount = parse_amount(self.text(), self._currency)
            except Refusal as refusal:
                self._why = say(refusal.sentence)
                return
        self.set_error("")
