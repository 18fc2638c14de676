"""What follows from a reading besides its own verdict: laser current against its label, the angle of a tilt, the
turns that belong to a scanning speed."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal

from app.trade.bench.disc import turns_per_minute
from app.trade.bench.figures import rounded
from app.trade.bench.follows import against_label, as_made
from app.trade.bench.quantities import Quantity
from app.trade.bench.reading_typed import SPEED, radius_in
from app.trade.bench.tilt import tilt_words, total
from app.trade.bench.verdict import Limit, judge
from app.trade.sentence import Measure, Sentence, Value

CURRENT, LABEL, SHARE = "laser_current", "laser_label", "laser_rel"
TILTS = frozenset({"tilt_rad", "tilt_tan"})


def share_of_label(
    current: Decimal, u: Decimal, label: Decimal, limit: Limit | None, known: Mapping[str, Quantity]
) -> Sentence:
    """Laser current against its label with the expanded uncertainty, judged against ``limit``; ampere."""
    share, u_share = against_label(current, u, label, known[LABEL].uncertainty([label]).u)
    shown = known[SHARE]
    values: dict[str, Value] = {
        "share": shown.rounded(share),
        "u": shown.rounded(2 * u_share),
        "label": known[LABEL].shown(label),
    }
    if limit is None:
        return Sentence("{share} ± {u} of the label, {label}.", values)
    verdict = judge(share, u_share, limit)
    values |= {"limit": shown.limit_words(limit), "verdict": verdict.short}
    return Sentence("{share} ± {u} of the label, {label}; limit {limit}: {verdict}.", values)


def as_if_made(
    quantity: Quantity, value: Decimal, u: Decimal, ratio: Decimal, limit: Limit
) -> Sentence | None:
    """A drive read while a change of ``ratio`` is live, as it would be at the maker's value, and its verdict."""
    if ratio == 1:
        return None
    y, u_y = as_made(value, u, ratio)
    return Sentence(
        "At the maker's value (change ×{k}): {y} ± {u}, {verdict}.",
        {
            "k": rounded(ratio, 3),
            "y": quantity.rounded(y),
            "u": quantity.rounded(2 * u_y),
            "verdict": judge(y, u_y, limit).short,
        },
    )


def turns_words(place: str, limit: Limit | None) -> Sentence | None:
    """What a turns counter has to show at the radius noted under place, ``r 25 mm``."""
    radius = radius_in(place)
    if radius is None or limit is None or limit.low is None or limit.high is None:
        return None
    turns = [Measure(rounded(turns_per_minute(end, radius), 0), "/min") for end in (limit.low, limit.high)]
    return Sentence(
        "At this radius the limits are {low} to {high} turns.", {"low": turns[0], "high": turns[1]}
    )


def with_other_direction(said: Sentence, quantity: Quantity, value: Decimal, other: Decimal) -> Sentence:
    """A tilt's words with the size of both directions together, metres; they stand at right angles."""
    both = Decimal(repr(total(float(value), float(other))))
    return Sentence(
        "{said} Both directions together: {total}.", {"said": said, "total": quantity.rounded(both)}
    )


def beside(
    quantity: Quantity,
    value: Decimal,
    u: Decimal,
    place: str,
    limit: Limit | None,
) -> Sentence | None:
    """What is said beside a tilt or a speed; None for any other quantity."""
    if quantity.id in TILTS:
        return tilt_words(value, u, place, None if limit is None else limit.high)
    if quantity.id == SPEED:
        return turns_words(place, limit)
    return None
