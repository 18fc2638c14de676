"""Every table of the book, imported once so that the metadata is whole."""

from __future__ import annotations

from app.book.base import Base
from app.book.bench.cards import Card
from app.book.bench.flags import Flag
from app.book.bench.knowledge import KnowledgeKept
from app.book.bench.modifications import Modification
from app.book.bench.readings import Instrument, Limit, QuantityKept, Reading, StartUpResult
from app.book.bench.safety_tests import SafetyStep, SafetyTest
from app.book.bench.symptoms import Symptom
from app.book.bench.transports import Fitting, PartChange, Transport, TransportType
from app.book.bench.trials import Trial
from app.book.bench.work_done import Attachment, CaseEvent, Labour, Part, PartMove
from app.book.counter.hand_backs import HandBack, UnsafeRequest, UnsafeReturnKept
from app.book.counter.jobs import Job, JobNote, ReportedFault, ThingLeft
from app.book.counter.messages import Agreement, Message
from app.book.counter.units import Unit
from app.book.find.find_words import FindWords
from app.book.history_rows import HistoryRow, HistoryText
from app.book.office.credit_notes import CreditNote, CreditNoteLine
from app.book.office.estimates import Estimate, EstimateAnswer, EstimateLine, EstimateOption
from app.book.office.guarantees import GuaranteeAnswer
from app.book.office.invoices import Charge, Invoice, InvoiceLine, Payment
from app.book.office.paper_prints import PaperPrint
from app.book.office.papers import Paper
from app.book.office.part_orders import PartOrder
from app.book.office.settings import NumberSeries, SettingKept
from app.book.people.customers import Customer
from app.book.people.staff import Staff, StaffMark

metadata = Base.metadata

__all__ = [
    "Agreement",
    "Attachment",
    "Base",
    "Card",
    "CaseEvent",
    "Charge",
    "CreditNote",
    "CreditNoteLine",
    "Customer",
    "Estimate",
    "EstimateAnswer",
    "EstimateLine",
    "EstimateOption",
    "FindWords",
    "Fitting",
    "Flag",
    "GuaranteeAnswer",
    "HandBack",
    "HistoryRow",
    "HistoryText",
    "Instrument",
    "Invoice",
    "InvoiceLine",
    "Job",
    "JobNote",
    "KnowledgeKept",
    "Labour",
    "Limit",
    "Message",
    "Modification",
    "NumberSeries",
    "Paper",
    "PaperPrint",
    "Part",
    "PartChange",
    "PartMove",
    "PartOrder",
    "Payment",
    "QuantityKept",
    "Reading",
    "ReportedFault",
    "SafetyStep",
    "SafetyTest",
    "SettingKept",
    "Staff",
    "StaffMark",
    "StartUpResult",
    "Symptom",
    "ThingLeft",
    "Transport",
    "TransportType",
    "Trial",
    "Unit",
    "UnsafeRequest",
    "UnsafeReturnKept",
    "metadata",
]
