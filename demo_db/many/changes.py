"""Modifications of a large book: the coil current raised with the customer's yes, and put back by a later visit."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import datetime
from types import SimpleNamespace

from app.book.bench.modification_facts import fact_of
from app.trade.bench.circuit_ratio import circuit_ratios
from app.trade.bench.modifications import Reversal
from app.trade.bench.stages import Way, said
from app.trade.sentence import Sentence
from demo_db.many.players import Player
from demo_db.many.rows import Rows
from demo_db.years import coil_raised

WHY = "three changes before it did nothing"
PUT_BACK = "the arm itself was the fault"


def raise_coil(
    rows: Rows,
    player: Player,
    job: int,
    number: int,
    trial: int,
    by: int,
    staff: Mapping[int, str],
    owner: str,
    at: datetime,
) -> None:
    """Record it with its numbers, and that ``owner`` agreed to it."""
    coil = player.kind.coil
    entry = coil_raised(coil, trial, WHY)
    ratios = circuit_ratios([entry.fact(at, number)])
    row = rows.keep(
        "modifications",
        job_id=job,
        unit_id=player.unit,
        trial_id=trial,
        ours=True,
        kind=entry.kind,
        circuit=entry.circuit,
        law=entry.law,
        reference=entry.where,
        value_before=entry.maker_value,
        value_after=entry.new_value,
        tolerance_before=entry.maker_tolerance,
        tolerance_after=entry.new_tolerance,
        rating=entry.rating,
        power=entry.power,
        current_before=entry.current_before,
        coil_resistance=entry.coil_resistance,
        ratio=ratios[0].k if ratios else None,
        why=entry.why,
        way_back=entry.way_back,
        at=at,
        by=by,
    )
    yes = rows.keep(
        "agreements",
        job_id=job,
        kind="modification",
        yes=True,
        what=f"{coil['where']} {coil['fitted']} for {coil['maker']} Ω, more coil current, can be undone",
        modification_id=row["id"],
        way=Way.TELEPHONE,
        said_by=owner,
        said_at=at,
        at=at,
        by=by,
    )
    words = Sentence(
        "{who}, {way}, {when}: {what}",
        {"who": owner, "way": said(Way.TELEPHONE), "when": at, "what": yes["what"]},
    )
    plain = SimpleNamespace(
        **dict.fromkeys(("part_before", "part_after"), ""),
        transport_id=None,
        reading_before=False,
        safety_critical=False,
        assessed_at=None,
        reversed_at=None,
        **row,
    )
    player.modifications.append(fact_of(plain, number, words, "", dict(staff)))
    player.changed.append(row)
    player.agreed[row["id"]] = SimpleNamespace(**yes)


def reverse(player: Player, job: int, by: int, name: str, at: datetime) -> None:
    """Put the maker's design back."""
    for place, (modification, row) in enumerate(zip(player.modifications, player.changed, strict=True)):
        if modification.live:
            row |= {
                "reversed_at": at,
                "reversed_job_id": job,
                "reversed_by": by,
                "reversed_note": PUT_BACK,
            }
            player.modifications[place] = replace(modification, reversal=Reversal(at, name, PUT_BACK, False))
