"""How sure a count of rare events is, and what mean time between them it allows."""

from __future__ import annotations


def garwood(events: int, confidence: float = 0.95) -> tuple[float, float]:
    """Exact limits of the mean of a Poisson count: χ²(2x)/2 below and χ²(2x+2)/2 above. Nothing seen starts at 0.

    Raises ValueError for a count below 0. Source: F. Garwood, Biometrika 28 (1936) 437. It errs to the wide side.
    """
    from scipy.special import gammainccinv, gammaincinv

    if events < 0:
        raise ValueError(f"{events} is no count")
    tail = (1 - confidence) / 2
    low = float(gammaincinv(events, tail)) if events else 0.0
    return (low, float(gammainccinv(events + 1, tail)))


def mean_time_limits(watched: float, events: int, confidence: float = 0.95) -> tuple[float, float | None]:
    """Limits of the mean time between events, in the unit of ``watched`` (over 0); no upper one without an event.

    Raises ValueError for a count or a time that is none. χ² limits of a watch that ended at a time fixed before, lower
    with 2x+2 degrees, upper with 2x: NIST/SEMATECH e-Handbook 8.4.5.1.
    """
    if not watched > 0:
        raise ValueError(f"watched for {watched}")
    low, high = garwood(events, confidence)
    return (watched / high, watched / low if low else None)
