"""More words that records are kept with: arrangement, fault group, transit lock, means of payment and others."""

from __future__ import annotations

from enum import StrEnum

from app.trade.sentence import words


class Arrangement(StrEnum):
    """How a transport moves its light across the disc."""

    SWING_ARM = words("swing-arm single-beam")
    SLED = words("sled three-beam")


class KnowledgeKind(StrEnum):
    """The kinds of bench knowledge that ship with the program and that a shop may make its own."""

    LADDER_ROW = "ladder row"
    SUSPECT = "suspect"
    EVIDENCE = "evidence"
    SYMPTOM = "symptom word"
    CHANGE = "change"
    RUNG = "rung"
    WEIGHING = "weighing"


class FaultGroup(StrEnum):
    """Where a job's main fault sat: thirteen words, the same on screens, papers, figures and in data."""

    POWER = words("power")
    LOADING = words("loading")
    LIGHT = words("light")
    FOCUS = words("focus")
    RADIAL = words("radial")
    SPINDLE = words("spindle")
    GEOMETRY = words("geometry")
    SIGNAL = words("signal")
    SOUND = words("sound")
    BOARD = words("board")
    CONTROL = words("control")
    DISC = words("disc")
    OTHER = words("other")


class HowOften(StrEnum):
    """How often a fault word holds, as the customer says."""

    ALWAYS = words("always")
    SOMETIMES = words("sometimes")
    WHEN_WARM = words("when warm")


class HowSeen(StrEnum):
    """How a start-up result was seen. Only normal use shows a cure."""

    NORMAL_USE = words("normal use")
    TEST_MODE = words("test mode")
    SINGLE_STEP = words("single step")


class Warmth(StrEnum):
    """Cold: off for 2 h or more. Warm: 30 min of play or more (common practice, no source)."""

    COLD = words("cold")
    BETWEEN = words("between")
    WARM = words("warm")


class TransitLock(StrEnum):
    """The state of a transit lock, as somebody saw it."""

    NOT_LOOKED = words("not looked yet")
    NONE = words("has none")
    SET = words("set")
    RELEASED = words("released")


class Means(StrEnum):
    """How money was paid."""

    CASH = words("cash")
    CARD = words("card")
    TRANSFER = words("transfer")


class ComebackStanding(StrEnum):
    """What the shop says of a proposed comeback."""

    PROPOSED = words("proposed")
    CONFIRMED = words("confirmed")
    DENIED = words("denied")
