"""The pages of this room, by the kind under which each is opened."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from app.screens.frame.later import LaterPage
from app.screens.office.figures.figure_kinds import KINDS
from app.screens.window import MainWindow

PAGES = {
    "office": LaterPage("app.screens.office.office_page.OfficePage"),
    "invoice": LaterPage("app.screens.office.invoice_page.InvoicePage"),
    "estimate": LaterPage("app.screens.office.estimate_page.EstimatePage"),
    "figures": LaterPage("app.screens.office.figures.figures_page.FiguresPage"),
    "figure": LaterPage("app.screens.office.figures.pages.figure_page"),
    "jobs_behind": LaterPage("app.screens.office.jobs_behind_page.JobsBehindPage"),
    "settings": LaterPage("app.screens.office.settings_page.SettingsPage"),
    "first_run": LaterPage("app.screens.office.first_run_page.FirstRunPage"),
    "invoices": LaterPage("app.screens.office.invoices_page.InvoicesPage"),
    "open_items": LaterPage("app.screens.office.open_items_page.OpenItemsPage"),
    "takings": LaterPage("app.screens.office.takings_page.TakingsPage"),
    "staff": LaterPage("app.screens.office.staff_page.StaffPage"),
    "person": LaterPage("app.screens.office.person_page.PersonPage"),
    "parts": LaterPage("app.screens.office.parts_page.PartsPage"),
    "part": LaterPage("app.screens.office.part_page.PartPage"),
    "bookkeeper": LaterPage("app.screens.office.bookkeeper_page.BookkeeperPage"),
    "reorder": LaterPage("app.screens.office.reorder_page.ReorderPage"),
    "transport_types": LaterPage("app.screens.office.transport_types_page.TransportTypesPage"),
    "transport_type": LaterPage("app.screens.office.transport_types_page.TransportTypePage"),
    "limits": LaterPage("app.screens.office.limits_page.LimitsPage"),
    "limit": LaterPage("app.screens.office.limit_page.LimitPage"),
    "quantities": LaterPage("app.screens.office.quantities_page.QuantitiesPage"),
    "quantity": LaterPage("app.screens.office.quantity_page.QuantityPage"),
    "cards": LaterPage("app.screens.office.cards_page.CardsPage"),
    "card": LaterPage("app.screens.office.cards_page.CardPage"),
    "knowledge": LaterPage("app.screens.office.knowledge_page.KnowledgePage"),
    "ladder_row": LaterPage("app.screens.office.ladder_row_page.LadderRowPage"),
    "rung": LaterPage("app.screens.office.rung_page.RungPage"),
    "weighing": LaterPage("app.screens.office.weighing_page.WeighingPage"),
    "suspect": LaterPage("app.screens.office.suspect_page.SuspectPage"),
    "evidence": LaterPage("app.screens.office.evidence_page.EvidencePage"),
    "symptom": LaterPage("app.screens.office.symptom_page.SymptomPage"),
    "bench_change": LaterPage("app.screens.office.bench_change_page.BenchChangePage"),
    "instruments": LaterPage("app.screens.office.instruments_page.InstrumentsPage"),
    "instrument": LaterPage("app.screens.office.instruments_page.InstrumentPage"),
    "upkeep": LaterPage("app.screens.office.upkeep.upkeep_page.UpkeepPage"),
}


def register(window: MainWindow) -> None:
    """Teach the window the pages of the Office, and the deeds that begin on any page."""
    for kind, page in PAGES.items():
        window.register(kind, "office", page, root=kind == "office")
    for act in ("restore", "check_book", "export_book", "back_up"):
        window.serve(act, _at_upkeep(window, act))
    window.serve("invoices", lambda: window.open("invoices"))
    window.serve("open_items", lambda: window.open("open_items"))
    window.serve("takings", lambda: window.open("takings"))
    window.serve("parts", lambda: window.open("parts"))
    window.serve("settings", lambda: window.open("settings"))
    for figure in KINDS:
        window.serve(figure, partial(window.open, "figure", figure))


def _at_upkeep(window: MainWindow, act: str) -> Callable[[], None]:
    """Show the part of the book's upkeep where this is done, from wherever it is asked for. A copy is begun."""

    def show() -> None:
        from app.screens.office.upkeep.upkeep_page import CHECK, COPIES, EXPORT, UpkeepPage

        window.open("upkeep", {"check_book": CHECK, "export_book": EXPORT}.get(act, COPIES))
        if act == "back_up" and isinstance(window.page, UpkeepPage):
            window.page.copies.back_up()

    return show
