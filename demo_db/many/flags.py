"""The flags of a large book: raised, kept and cleared by the rules, visit after visit, as the book settles them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from app.book.bench.flag_rows import READING_RULES
from app.trade.bench.facts import Answer, JobFacts
from app.trade.bench.flag import Closing, FlagRaised, Subject
from app.trade.bench.flags import evaluate
from app.trade.bench.thresholds import Thresholds
from demo_db.many.rows import Rows

OWNERS_WORDS = "looked at together with the technician"
Identity = tuple[str, str, str]


@dataclass
class OnPlayer:
    """What stands on a player and the transport in it, and what was answered, from visit to visit."""

    unit: int
    transport: int
    rows: dict[Identity, dict[str, Any]] = field(default_factory=dict)
    answers: list[Answer] = field(default_factory=list)


class Flags:
    """The flags of one visit."""

    def __init__(self, rows: Rows, thresholds: Thresholds, people: Mapping[str, int], owner: str) -> None:
        self._rows = rows
        self._thresholds = thresholds
        self._people = people
        self._owner = owner  # by name
        self._job = 0
        self._of_job: dict[Identity, dict[str, Any]] = {}
        self._player = OnPlayer(0, 0)

    def begin(self, job: int, player: OnPlayer) -> None:
        """Another visit."""
        self._job, self._of_job, self._player = job, {}, player

    def settle(self, facts: JobFacts, at: datetime) -> None:
        """Bring the rows in step with what the rules say now."""
        standing = {**self._of_job, **self._player.rows}
        for flag in evaluate(facts, self._thresholds):
            there = standing.pop(flag.identity, None)
            if there is None:
                self._raise(flag, at)
            else:
                there.update(_said(flag))
        measured = {reading.quantity for reading in facts.readings}
        for identity, row in standing.items():
            quantities = READING_RULES.get(row["rule"])
            if not quantities or row["job_id"] == self._job or measured & set(quantities):
                self._clear(identity, at, self._people["mirr"])

    def owner_looks(self, at: datetime) -> tuple[Answer, ...]:
        """The owner answers what waits for her. Gives every answer on the player and this job."""
        for identity, row in list({**self._of_job, **self._player.rows}.items()):
            if not row["owner_sees"] or row.get("acknowledged_at") is not None:
                continue
            by = self._people["ine"]
            row["answered_mark"] = row["needs"]
            if row["closing"] is Closing.SEEN:
                row |= {
                    "acknowledged_at": at,
                    "acknowledged_by": by,
                    "acknowledged_reason": OWNERS_WORDS,
                }
            else:
                row["cleared_reason"] = OWNERS_WORDS
                self._clear(identity, at, by)
            self._player.answers.append(
                Answer(
                    row["rule"], row["detail"], row["sentence"], row["needs"], self._owner, at, OWNERS_WORDS
                )
            )
        return tuple(self._player.answers)

    def _raise(self, flag: FlagRaised, at: datetime) -> None:
        on_job, on_unit = flag.subject is Subject.JOB, flag.subject is Subject.UNIT
        row = self._rows.keep(
            "flags",
            rule=flag.rule,
            subject=flag.subject,
            detail=flag.detail,
            job_id=self._job,
            unit_id=self._player.unit if on_unit else None,
            transport_id=None if on_job or on_unit else self._player.transport,
            raised_at=at,
            **_said(flag),
        )
        (self._of_job if on_job else self._player.rows)[flag.identity] = row

    def _clear(self, identity: Identity, at: datetime, by: int) -> None:
        row = self._of_job.pop(identity, None) or self._player.rows.pop(identity)
        row["cleared_at"], row["cleared_by"] = at, by


def _said(flag: FlagRaised) -> dict[str, Any]:
    return {
        "rule_version": flag.rule_version,
        "level": flag.level,
        "word": flag.word,
        "sentence": flag.sentence,
        "clears": flag.clears,
        "closing": flag.closing,
        "needs": flag.needs,
        "owner_sees": flag.owner_sees,
    }
