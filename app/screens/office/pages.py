"""The pages of this room, by the kind under which each is opened."""

from __future__ import annotations

from functools import partial

from app.screens.office.first_run_page import FirstRunPage
from app.screens.office.instruments_page import InstrumentPage, InstrumentsPage
from app.screens.office.invoice_page import InvoicePage
from app.screens.office.invoices_page import InvoicesPage
from app.screens.office.jobs_behind_page import JobsBehindPage
from app.screens.office.limit_page import LimitPage
from app.screens.office.limits_page import LimitsPage
from app.screens.office.office_page import OfficePage
from app.screens.office.part_page import PartPage
from app.screens.office.parts_page import PartsPage
from app.screens.office.person_page import PersonPage
from app.screens.office.quantities_page import QuantitiesPage
from app.screens.office.quantity_page import QuantityPage
from app.screens.office.repeat_faults_page import RepeatFaultsPage
from app.screens.office.settings_page import SettingsPage
from app.screens.office.staff_page import StaffPage
from app.screens.office.transport_types_page import TransportTypePage, TransportTypesPage
from app.screens.office.upkeep.upkeep_page import CHECK, COPIES, EXPORT, UpkeepPage
from app.screens.window import MainWindow


def register(window: MainWindow) -> None:
    """Teach the window the pages of the Office, and the deeds that begin on any page."""
    window.register("office", "office", OfficePage, root=True)
    window.register("invoice", "office", InvoicePage)
    window.register("repeat_faults", "office", RepeatFaultsPage)
    window.register("jobs_behind", "office", JobsBehindPage)
    window.register("settings", "office", SettingsPage)
    for kind, page in (
        ("first_run", FirstRunPage),
        ("invoices", InvoicesPage),
        ("staff", StaffPage),
        ("person", PersonPage),
        ("parts", PartsPage),
        ("part", PartPage),
        ("transport_types", TransportTypesPage),
        ("transport_type", TransportTypePage),
        ("limits", LimitsPage),
        ("limit", LimitPage),
        ("quantities", QuantitiesPage),
        ("quantity", QuantityPage),
        ("instruments", InstrumentsPage),
        ("instrument", InstrumentPage),
    ):
        window.register(kind, "office", page)
    window.register("upkeep", "office", UpkeepPage)
    for act, part in (
        ("restore", COPIES),
        ("check_book", CHECK),
        ("export_book", EXPORT),
    ):
        window.serve(act, partial(window.open, "upkeep", part))
    window.serve("back_up", partial(_back_up, window))
    window.serve("invoices", lambda: window.open("invoices"))
    window.serve("parts", lambda: window.open("parts"))
    window.serve("settings", lambda: window.open("settings"))
    window.serve("comebacks", lambda: window.open("repeat_faults"))


def _back_up(window: MainWindow) -> None:
    """From wherever it is asked for: show the copies and make one."""
    window.open("upkeep", COPIES)
    if isinstance(window.page, UpkeepPage):
        window.page.copies.back_up()
