"""What a change of the book's tables can alter for the rules: nothing, some fields of one job's facts, or anything."""

from __future__ import annotations

from collections.abc import Mapping, Set

# Tables whose change cannot alter what any rule says; gates are asked for when they are shown, and keep no rows.
SILENT = frozenset(
    {
        "attachments",
        "case_events",
        "customers",
        "estimate_lines",
        "estimate_options",
        "estimates",
        "hand_backs",
        "job_notes",
        "messages",
        "papers",
        "staff",
        "unsafe_returns",
    }
)
# Tables whose rows only the rules of their own job look at: no other job of the unit needs to be asked. A player
# has one job in the shop at a time. Beside each, the fields of the facts that its rows fill; None: many.
OF_ONE_JOB: Mapping[str, Set[str] | None] = {
    "readings": None,
    "jobs": None,  # by column, below
    "start_up_results": {"powered"},
    "trials": {"trials"},
    "labour": {"work_so_far"},
    "charges": {"work_so_far"},
    "part_moves": {"work_so_far"},
    "part_orders": frozenset(),
    "estimate_answers": {"work_so_far"},
    "payments": {"balance"},
    "invoices": {"balance"},
    "invoice_lines": frozenset(),
    "credit_notes": {"balance"},
    "credit_note_lines": frozenset(),
    "guarantee_answers": frozenset(),
    "paper_prints": frozenset(),
    "things_left": {"discs"},
    "reported_faults": frozenset(),
    "unsafe_requests": {"asked"},
    "safety_tests": {"safety_tests"},
    "safety_steps": {"safety_tests"},
}
# The same for columns of `jobs`; any other column, as of a new job, may alter anything.
OF_JOBS: Mapping[str, Set[str]] = {
    "stage": {"stage"},
    "transit_lock": {"transit_lock"},
    "goes_by_post": {"by_post"},
    "go_ahead_limit": {"agreed"},
    **dict.fromkeys(
        (
            "cause",
            "cause_note",
            "fault_group",
            "guarantee_until",
            "handed_back_at",
            "outcome",
            "promised_on",
            "promised_time",
            "ready_at",
            "shelf",
            "waiting",
        ),
        frozenset[str](),
    ),
}


def altered_fields(touched: Mapping[str, Set[str]]) -> Set[str] | None:
    """The fields of their own job's facts that changes to these tables and columns can alter; None: anything."""
    altered: set[str] = set()
    for table, columns in touched.items():
        if table in SILENT:
            continue
        if table == "jobs":
            fields = _of_jobs(columns)
        else:
            fields = OF_ONE_JOB.get(table)
        if fields is None:
            return None
        altered |= fields
    return altered


def _of_jobs(columns: Set[str]) -> Set[str] | None:
    if not columns <= OF_JOBS.keys():
        return None
    return frozenset[str]().union(*(OF_JOBS[column] for column in columns))
