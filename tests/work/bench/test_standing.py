"""Where a job stands is said by the shop's own ladder, from the moment on when it is changed."""

from __future__ import annotations

from typing import Any

from app.trade.bench.kinds import KnowledgeKind
from app.trade.wording import plain
from app.work.office.knowledge_list import knowledge_line, save_record


def test_the_sheet_tells_what_the_shops_own_ladder_says_is_proven(bench: Any) -> None:
    bench.climb(10)
    say = plain(bench.book.zone)
    row = knowledge_line(bench.book, KnowledgeKind.LADDER_ROW, "10 S")
    assert row.content["proves"] in say(bench.sheet.stands_more)
    own = {**row.content, "proves": "the arm's whole way out"}
    owner = bench.shop.ine
    save_record(bench.book, owner, KnowledgeKind.LADDER_ROW, "10 S", own, version=row.version)
    told = say(bench.sheet.stands_more)
    assert "the arm's whole way out" in told
    assert row.content["proves"] not in told
