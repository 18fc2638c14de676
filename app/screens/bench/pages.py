"""The pages of this room, by the kind under which each is opened."""

from __future__ import annotations

from app.screens.bench.bench_page import BenchPage
from app.screens.bench.job_sheet_page import JobSheetPage
from app.screens.bench.transport_page import TransportPage
from app.screens.bench.transports_page import TransportsPage
from app.screens.bench.unit_page import UnitPage
from app.screens.bench.units_page import UnitsPage
from app.screens.window import MainWindow


def register(window: MainWindow) -> None:
    """Teach the window the pages of the bench, and the deeds that begin on any page."""
    window.register("bench", "bench", BenchPage, root=True)
    window.register("job", "bench", JobSheetPage)
    window.register("transport", "bench", TransportPage)
    window.register("unit", "bench", UnitPage)
    window.register("transports", "bench", TransportsPage)
    window.register("units", "bench", UnitsPage)
    window.serve("transports", lambda: window.open("transports"))
    window.serve("units", lambda: window.open("units"))
