"""Triggers that hold even against a hand in the file: what is written once stays written.

A batch rebuild of a table drops its triggers silently, so they are declared once here and made anew
after every migration; the check compares them with what the file really has.
"""

from __future__ import annotations

from collections.abc import Iterator

from app.book.office.papers import KEPT_PAPERS, KEPT_WITH_INVOICE

# Rows of these tables are never deleted: struck out, ended or blanked instead.
NEVER_DELETED = (
    "agreements",
    "attachments",
    "cards",
    "case_events",
    "charges",
    "credit_note_lines",
    "credit_notes",
    "customers",
    "estimate_answers",
    "estimate_lines",
    "estimate_options",
    "estimates",
    "fittings",
    "flags",
    "guarantee_answers",
    "hand_backs",
    "history",
    "history_texts",
    "invoice_lines",
    "invoices",
    "job_notes",
    "jobs",
    "knowledge",
    "labour",
    "messages",
    "modifications",
    "paper_prints",
    "papers",
    "part_changes",
    "part_moves",
    "part_orders",
    "payments",
    "readings",
    "safety_steps",
    "safety_tests",
    "staff",
    "start_up_results",
    "transports",
    "trials",
    "units",
    "unsafe_requests",
    "unsafe_returns",
)
# Rows of these tables are never changed either.
NEVER_CHANGED = (
    "case_events",
    "credit_note_lines",
    "credit_notes",
    "guarantee_answers",
    "history",
    "invoice_lines",
    "invoices",
    "paper_prints",
    "part_moves",
    "payments",
    "safety_steps",
    "safety_tests",
)
# When the estimate was issued that a row belongs to, by the table of the row; the braces are OLD or NEW.
ISSUED_AT = {
    "estimate_options": "(SELECT issued_at FROM estimates WHERE id = {}.estimate_id)",
    "estimate_lines": "(SELECT e.issued_at FROM estimates AS e JOIN estimate_options AS o"
    " ON o.estimate_id = e.id WHERE o.id = {}.option_id)",
}


def sqlite_triggers() -> Iterator[tuple[str, str]]:
    """Name and CREATE statement of every trigger on SQLite."""
    for table in NEVER_DELETED:
        yield _trigger(f"{table}_stay", table, "DELETE", "", f"{table}: rows are never deleted")
    for table in NEVER_CHANGED:
        yield _trigger(f"{table}_stand", table, "UPDATE", "", f"{table}: rows never change")
    yield _trigger(
        "history_texts_blank_only",
        "history_texts",
        "UPDATE",
        "WHEN NEW.text <> '' OR NEW.salt <> '' OR NEW.seq <> OLD.seq OR NEW.side <> OLD.side"
        ' OR NEW."column" <> OLD."column" OR NEW.id <> OLD.id',
        "history_texts: a text can only be blanked",
    )
    yield _trigger(
        "invoice_lines_closed",
        "invoice_lines",
        "INSERT",
        "WHEN (SELECT count(*) FROM invoice_lines WHERE invoice_id = NEW.invoice_id)"
        " >= (SELECT line_count FROM invoices WHERE id = NEW.invoice_id)",
        "invoice_lines: the invoice is issued",
    )
    yield _trigger(
        "credit_note_lines_closed",
        "credit_note_lines",
        "INSERT",
        "WHEN (SELECT count(*) FROM credit_note_lines WHERE credit_note_id = NEW.credit_note_id)"
        " >= (SELECT line_count FROM credit_notes WHERE id = NEW.credit_note_id)",
        "credit_note_lines: the credit note is issued",
    )
    yield _trigger(
        "credit_notes_within",
        "credit_notes",
        "INSERT",
        "WHEN NEW.due + (SELECT coalesce(sum(due), 0) FROM credit_notes WHERE invoice_id = NEW.invoice_id)"
        " > (SELECT gross + rounding FROM invoices WHERE id = NEW.invoice_id)",
        "credit_notes: more than the invoice cannot be credited",
    )
    yield _trigger(
        "papers_frozen",
        "papers",
        "UPDATE",
        "WHEN NEW.kind <> OLD.kind OR NEW.job_id <> OLD.job_id OR NEW.title <> OLD.title"  # noqa: S608
        " OR NEW.issued_at <> OLD.issued_at OR (NEW.facts <> OLD.facts AND"
        f" (NEW.facts <> '{{}}' OR OLD.kind IN {KEPT_PAPERS}"
        f" OR (OLD.kind = '{KEPT_WITH_INVOICE}' AND OLD.job_id IN (SELECT job_id FROM invoices))))",
        "papers: an issued paper never changes",
    )
    yield _trigger(
        "estimates_frozen",
        "estimates",
        "UPDATE",
        "WHEN OLD.issued_at IS NOT NULL",
        "estimates: an issued estimate never changes",
    )
    for table, issued in ISSUED_AT.items():
        for event, row in (("UPDATE", "OLD"), ("INSERT", "NEW")):
            yield _trigger(
                f"{table}_frozen_{event.lower()}",
                table,
                event,
                f"WHEN {issued.format(row)} IS NOT NULL",
                f"{table}: an issued estimate never changes",
            )
    yield _trigger(
        "part_orders_stand",
        "part_orders",
        "UPDATE",
        "WHEN OLD.given_up_at IS NOT NULL OR NEW.part_id <> OLD.part_id OR NEW.job_id IS NOT OLD.job_id"
        " OR NEW.quantity <> OLD.quantity OR NEW.supplier <> OLD.supplier OR NEW.ordered_on <> OLD.ordered_on"
        " OR NEW.note <> OLD.note",
        "part_orders: what was ordered stands as it was",
    )
    for table in ("readings", "trials", "modifications", "start_up_results"):
        yield _trigger(
            f"{table}_struck",
            table,
            "UPDATE",
            "WHEN OLD.struck_at IS NOT NULL AND NEW.struck_at IS NULL AND NEW.struck_reason <> ''",
            f"{table}: an undone strike-out leaves no reason behind",
        )
    yield _trigger(
        "readings_verdict_stands",
        "readings",
        "UPDATE",
        "WHEN NEW.typed <> OLD.typed OR NEW.value IS NOT OLD.value OR NEW.verdict <> OLD.verdict"
        " OR NEW.limit_low IS NOT OLD.limit_low OR NEW.limit_high IS NOT OLD.limit_high"
        " OR NEW.uncertainty IS NOT OLD.uncertainty OR NEW.rule <> OLD.rule",
        "readings: value and verdict of a reading stand as they were given",
    )


def _trigger(name: str, table: str, event: str, when: str, message: str) -> tuple[str, str]:
    return (
        f"tr_{name}",
        (
            f"CREATE TRIGGER tr_{name} BEFORE {event} ON {table} {when} BEGIN"
            f" SELECT RAISE(ABORT, '{message}'); END"
        ),
    )
