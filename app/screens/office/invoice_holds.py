"""What keeps an invoice from being issued, as lines of flags with what to do about each."""

from __future__ import annotations

from app.screens.kit.flags import FlagFacts
from app.screens.language import say
from app.trade.office.invoice import LineKind
from app.work.office.invoice_view import InvoiceView

CANNOT = "cannot"  # target of a flag that is put right in the lines on the page


def held_words(view: InvoiceView) -> str:
    """The short reason inside the blocked button; empty when nothing holds it."""
    if view.draft.held:
        return say("held") if len(view.draft.held) == 1 else say("held by {n}", n=len(view.draft.held))
    if view.draft.wrong and all(line.kind is LineKind.TEXT for line in view.draft.draft.lines):
        return say("nothing to charge yet")
    if view.draft.wrong:
        return say("put the lines right first")
    return ""


def flags_of(view: InvoiceView) -> list[FlagFacts]:
    """Stops and gates as stops, what cannot be right as cautions, an unsafe return as a note."""
    if view.invoice is not None:
        return []
    flags = [
        FlagFacts("stop", say("Held"), say(sentence), action=say("Open the job"), target=("job", view.job_id))
        for sentence in view.draft.held
    ]
    for field, sentence in view.draft.wrong.items():
        if field == "hourly_rate":
            flags.append(
                FlagFacts(
                    "caution",
                    say("Price missing"),
                    say(sentence),
                    action=say("Open the settings"),
                    target=("settings", "money"),
                )
            )
        elif field == "customer_vat_id":
            flags.append(
                FlagFacts(
                    "caution",
                    say("VAT number missing"),
                    say(sentence),
                    action=say("Open the job"),
                    target=("job", view.job_id),
                )
            )
        elif field == "lines":
            flags.append(
                FlagFacts(
                    "note",
                    say("Nothing to invoice"),
                    say(sentence),
                    action=say("Open the job"),
                    target=("job", view.job_id),
                )
            )
        else:
            where = _where(view, field)
            words = f"{where}: {say(sentence)}" if where else say(sentence)
            flags.append(FlagFacts("caution", say("To put right"), words, target=(CANNOT, field)))
    if view.credited:
        flags.append(
            FlagFacts(
                "note",
                say("Credited"),
                say(
                    "All of invoice {number} was credited: this is the draft of the next one.",
                    number=view.credited[-1].number,
                ),
            )
        )
    if view.draft.fees_only:
        flags.append(
            FlagFacts(
                "note",
                say("Only fees"),
                say("The player goes back unrepaired and unsafe: working time and parts are not invoiced."),
            )
        )
    return flags


def _where(view: InvoiceView, field: str) -> str:
    """The words of the line or discount that a field such as ``lines.2.price`` belongs to."""
    part, _, rest = field.partition(".")
    at = rest.partition(".")[0]
    if part == "lines" and at.isdigit():
        return view.draft.draft.lines[int(at)].words
    if part in ("discounts", "charges") and at.isdigit():
        moved = view.draft.draft.discounts if part == "discounts" else view.draft.draft.charges
        return moved[int(at)].reason
    return ""
