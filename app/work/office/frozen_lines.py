"""What is frozen of a line, on an invoice as on a credit note."""

from __future__ import annotations

from typing import Any

from app.trade.money import Money
from app.trade.office.invoice import Line


def line_kept(line: Line, net: Money) -> dict[str, Any]:
    """The columns that a line has on either, with its net amount."""
    return {
        "kind": line.kind.value,
        "words": line.words,
        "quantity": line.quantity,
        "unit": line.unit,
        "price": line.price,
        "price_with_vat": line.price_with_vat,
        "discount": line.discount,
        "discount_reason": line.discount_reason,
        "net": net.minor,
        "vat_rate": line.vat_rate,
        "category": line.category,
        "vat_reason": line.vat_reason,
    }
