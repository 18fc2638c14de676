"""A trimmer has no law: readings before and after. Sums: common practice, no source."""

from datetime import UTC
from decimal import Decimal

import pytest

from app.trade.bench.trimmer import trimmer_effect
from app.trade.wording import plain

D = Decimal

SAY = plain(UTC)


def test_laser_current_before_and_after() -> None:
    found = trimmer_effect(D("48.6"), D("1.013336"), D("54.3"), D("1.131818"))
    assert found.ratio is not None
    assert found.u_ratio is not None
    assert found.difference.d == D("5.7")
    assert float(found.difference.u) == pytest.approx(1.519165, abs=1e-6)
    assert float(found.ratio) == pytest.approx(1.117284, abs=5e-7)
    assert float(found.u_ratio) == pytest.approx(0.032940, abs=5e-6)
    assert SAY(found.summary) == "Reading ×1.117 ± 0.033: a real change"


@pytest.mark.parametrize(("before", "after"), [("0", "4"), ("4", "0")])
def test_from_or_to_nothing_there_is_no_ratio(before: str, after: str) -> None:
    found = trimmer_effect(D(before), D(2), D(after), D(2))
    assert (found.ratio, found.u_ratio) == (None, None)
    assert SAY(found.summary) == "Reading: no difference shown"
