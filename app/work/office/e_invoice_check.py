"""Looking through an e-invoice from anywhere: a file with its XML, or a PDF with the XML inside."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from app.trade.office.e_invoice_figures import read_figures
from app.trade.office.e_invoice_rules import Ruled, check_sums
from app.trade.refusal import Refusal
from app.trade.sentence import Sentence

MOST_BYTES = 32 * 1024 * 1024
_PDF_WITHIN = 1024  # bytes in which a PDF has to say that it is one


@dataclass(frozen=True, slots=True)
class CheckedEInvoice:
    """Whose sums were worked out anew, and what became of each rule."""

    number: str
    credit_note: bool
    currency: str
    rules: tuple[Ruled, ...]

    @property
    def broken(self) -> tuple[Sentence, ...]:
        """What is wrong, each with the name of its rule."""
        return tuple(ruled.broken for ruled in self.rules if ruled.broken is not None)


def check_e_invoice(path: Path) -> CheckedEInvoice:
    """Work out the sums of an e-invoice anew. Raises Refusal for a file that is none."""
    raw = _read(path)
    if b"%PDF-" in raw[:_PDF_WITHIN]:
        from app.papers.e_invoice_inside import xml_inside

        raw = xml_inside(raw)
    figures = read_figures(raw)
    return CheckedEInvoice(figures.number, figures.kind == "381", figures.currency, check_sums(figures))


def _read(path: Path) -> bytes:
    try:
        if not path.is_file():
            raise Refusal(Sentence("There is no file {path}.", {"path": str(path)}))
        with path.open("rb") as file:
            raw = file.read(MOST_BYTES + 1)
    except OSError as error:
        raise Refusal(
            Sentence(
                "{path} cannot be read: {why}.", {"path": str(path), "why": error.strerror or str(error)}
            )
        ) from error
    if len(raw) > MOST_BYTES:
        raise Refusal(Sentence("This file is larger than {most} MB.", {"most": MOST_BYTES // 1024 // 1024}))
    return raw
