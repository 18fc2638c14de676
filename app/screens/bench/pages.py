"""The pages of this room, by the kind under which each is opened."""

from __future__ import annotations

from app.screens.frame.later import LaterPage
from app.screens.window import MainWindow

PAGES = {
    "bench": LaterPage("app.screens.bench.bench_page.BenchPage"),
    "job": LaterPage("app.screens.bench.job_sheet_page.JobSheetPage"),
    "transport": LaterPage("app.screens.bench.transport_page.TransportPage"),
    "unit": LaterPage("app.screens.bench.unit_page.UnitPage"),
    "transports": LaterPage("app.screens.bench.transports_page.TransportsPage"),
    "units": LaterPage("app.screens.bench.units_page.UnitsPage"),
    "helped_jobs": LaterPage("app.screens.bench.helped_jobs_page.HelpedJobsPage"),
}


def register(window: MainWindow) -> None:
    """Teach the window the pages of the bench, and the deeds that begin on any page."""
    for kind, page in PAGES.items():
        window.register(kind, "bench", page, root=kind == "bench")
    window.serve("transports", lambda: window.open("transports"))
    window.serve("units", lambda: window.open("units"))
