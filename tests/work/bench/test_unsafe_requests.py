"""What was asked for that would make a player unsafe."""

from __future__ import annotations

from typing import Any

from app.trade.bench.flag import Level
from app.work.bench.unsafe_requests import unsafe_requests
from app.work.counter.requests import note_unsafe_request, refuse_unsafe_request


def test_a_request_stops_the_job_until_it_is_refused(bench: Any) -> None:
    asked = note_unsafe_request(bench.book, bench.shop.mirr, bench.job, "bridge the lid switch, please").value
    (line,) = unsafe_requests(bench.book, bench.job)
    assert (line.what, line.by, line.refused_at, line.refused_by) == (
        "bridge the lid switch, please",
        "Mirr Quistan",
        None,
        "",
    )
    assert [flag.level for flag in bench.sheet.flags if flag.rule == "interlock"] == [Level.STOP]
    bench.later(minutes=3)
    refuse_unsafe_request(bench.book, bench.tobbe, asked)
    (line,) = unsafe_requests(bench.book, bench.job)
    assert line.refused_by == "Tobbe Ruskamp"
    assert line.refused_at == bench.shop.clock()
    assert "interlock" not in bench.rules()


def test_a_job_without_requests_has_none(bench: Any) -> None:
    assert unsafe_requests(bench.book, bench.job) == ()
