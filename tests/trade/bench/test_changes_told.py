"""The modifications of a player as its safety notes tell them."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from app.trade.bench.changes_told import change_lines
from app.trade.bench.modifications import Circuit, Kind, Law, Origin
from app.trade.wording import Wording


def test_every_change_is_named_and_only_ours_are_called_on_purpose(
    job: Any, modification: Any, unlawful: Any, english: Wording
) -> None:
    found = modification(origin=Origin.FOUND)
    gain = modification(
        number=2,
        where="R40",
        circuit=Circuit.SERVO_GAIN,
        law=Law.GAIN,
        maker_value=Decimal(47000),
        new_value=Decimal(56000),
    )
    shim = unlawful(Kind.MECHANICAL, Circuit.MECHANICS, number=3, where="clamp spring", now="shim 0.3 mm")
    facts = job(modifications=(found, gain, shim))
    assert [english(line).replace("\u00a0", " ") for line in change_lines(facts)] == [
        "Current in the radial coil is 21 % above the maker's figure (R314).",
        "Loop gain in the servo is 19 % above the maker's figure (R40).",
        "Changed: mechanical shift at clamp spring (mechanics): shim 0.3 mm.",
    ]
    ours = next(iter(change_lines(job(modifications=(modification(),)))))
    assert "on purpose" in english(ours)
