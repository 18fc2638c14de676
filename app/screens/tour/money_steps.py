"""A day of money: estimate, answer by telephone, deposit, invoice and e-invoice, part payment, credit note for a line,
reminder."""

from __future__ import annotations

from app.screens.bench.job_sheet_page import JobSheetPage
from app.screens.language import say
from app.screens.office.estimate_page import EstimatePage
from app.screens.office.invoice_page import InvoicePage
from app.screens.office.open_items_page import OpenItemsPage
from app.screens.paper_page import PaperPage
from app.screens.tour.hands import Steps
from app.screens.tour.waits import Waits
from app.work.office.e_invoice_check import check_e_invoice

TRAY_SERIAL = "0518 377"
E_INVOICES = "* e-invoice.pdf"


class MoneySteps(Waits):
    """The steps of the counter and the office on one job, in their order."""

    def money_day(self) -> Steps:
        """All of them."""
        yield from self.tray_taken_in()
        yield from self.estimated()
        yield from self.answered()
        yield from self.worked_and_billed()
        yield from self.e_invoiced()
        yield from self.paid_in_part()
        yield from self.credited()
        yield from self.reminded()

    def tray_taken_in(self) -> Steps:
        """A second player, whose tray does not open."""
        self.works("Mirr")
        hands = self.hands
        hands.press("Ctrl+N")
        yield self.sees("Customer")
        for name, text in (
            ("Customer", "Aldo Brackwell"),
            ("Phone", "01632 960 417"),
            ("Street and house", "3 Ropewalk"),
            ("Postcode", "43117"),
            ("Town", "Mossgate"),
            ("Serial number", TRAY_SERIAL),
            ("Maker", "Ostrind"),
            ("Model", "Osier 7"),
        ):
            hands.type_into(name, text)
            yield self.idle
        hands.choose("Mains: class II")
        hands.type_into("As they say it", "The tray hums and stays shut.")
        hands.type_into("Ask first above", "60")
        hands.type_into("Ready by", "+8")
        hands.press("Ctrl+Return")
        yield self.page_is(PaperPage)
        hands.press("Ctrl+F")
        hands.type(TRAY_SERIAL)
        yield self.idle
        hands.press("Return")
        yield self.page_is(JobSheetPage)
        page = hands.window.page
        assert isinstance(page, JobSheetPage)
        self.job = page.job_id
        hands.press("Ctrl+P")
        yield self.page_is(PaperPage)
        self.keep_paper("bench-tag")
        hands.press("Alt+Left")
        yield self.page_is(JobSheetPage)

    def estimated(self) -> Steps:
        """Two ways to mend it, with their lines, printed for the customer to choose."""
        self.works("Tobbe")
        hands = self.hands
        hands.window.open("estimate", self.job)
        yield self.sees("Begin the estimate")
        hands.click("Begin the estimate")
        yield self.sees("Write its words")
        yield from self.option("Write its words", "belt renewed", "A new loading belt; the gears stay.")
        yield from self.line("Add working time", "belt renewed, tray run in", "How long", "0:45", "62.00")
        yield from self.line("Add a part", "loading belt, 62 mm", "How much", "1", "4.20")
        yield from self.option("Add an option", "belt and tray switch", "Belt and tray switch, both new.")
        yield from self.line("Add a part", "tray switch, new", "How much", "1", "3.10")
        hands.picture("25-estimate-draft")
        hands.click("Issue the estimate")
        yield self.sees("Record the answer")
        yield self.sees("Print")
        hands.press("Ctrl+P")
        yield self.page_is(PaperPage)
        self.keep_paper("estimate")
        hands.press("Alt+Left")
        yield self.page_is(EstimatePage)

    def option(self, link: str, title: str, what: str) -> Steps:
        """Write the words of one way to mend it."""
        hands = self.hands
        hands.click(link)
        yield self.sees("In a few words")
        hands.type_into("In a few words", title)
        hands.type_into("What we do", what)
        hands.press("Ctrl+Return")
        yield self.gone("In a few words")

    def line(self, link: str, what: str, much: str, number: str, price: str) -> Steps:
        """Write one line of an option."""
        hands = self.hands
        hands.click(link)
        yield self.sees("What")
        hands.type_into("What", what)
        yield self.idle
        hands.type_into(much, number)
        hands.press("Tab")
        hands.press("Ctrl+A")
        hands.type(price)
        yield self.idle
        hands.press("Ctrl+Return")
        yield self.gone("What")

    def answered(self) -> Steps:
        """The counter rings, records what the customer chose, and takes a deposit."""
        self.works("Mirr")
        self.clock.on(hours=3)
        hands = self.hands
        hands.press("Ctrl+Shift+Y")
        yield self.sees("Said by")
        hands.choose(hands.named("Answer: A"))
        hands.type_into("Said by", "Aldo Brackwell")
        hands.choose("By which way: telephone")
        hands.type_into("In the customer's own words", "Only the belt, and Friday is fine.")
        yield self.idle
        hands.picture("26-answer")
        hands.press("Ctrl+Return")
        yield self.gone("Said by")
        hands.window.open("invoice", self.job)
        yield self.page_is(InvoicePage)
        yield self.sees("Take a payment")
        yield from self.paid("20.00", "cash")

    def paid(self, amount: str, means: str) -> Steps:
        """Take money on the page of the invoice."""
        hands = self.hands
        hands.click("Take a payment")
        yield self.sees("Amount")
        hands.type_into("Amount", amount)
        hands.choose(f"How: {means}")
        hands.press("Ctrl+Return")
        yield self.gone("Take the payment")

    def worked_and_billed(self) -> Steps:
        """The belt is renewed; the owner issues the invoice, from which the deposit is taken off."""
        hands = self.hands
        self.works("Tobbe")
        hands.window.open("job", self.job)
        yield self.page_is(JobSheetPage)
        hands.click("Put on the bench")
        yield self.idle
        hands.click("Case opened")
        yield self.sees("Case closed")
        self.clock.on(minutes=45)
        hands.click("Case closed")
        yield self.gone("Case closed")
        hands.window.open("estimate", self.job)
        yield self.page_is(EstimatePage)
        hands.choose("The invoice takes over: its lines as estimated")
        yield self.idle
        self.works("Ine")
        hands.window.open("invoice", self.job)
        yield self.sees("Issue the invoice")
        hands.click("Issue the invoice")
        yield self.sees("Issue it now")
        hands.click("Issue it now")
        yield self.sees("Print")

    def e_invoiced(self) -> Steps:
        """The invoice is saved as e-invoice, and its sums worked out anew as `invoice-check` does."""
        hands = self.hands
        hands.click("Save as e-invoice…")
        yield self.written(E_INVOICES)
        hands.picture("27-e-invoice-saved")
        (path,) = hands.folder.glob(E_INVOICES)
        checked = check_e_invoice(path)
        ruled = [
            f"{say('good') if rule.broken is None else say('wrong')}  {rule.rule}  {say(rule.what)}"
            for rule in checked.rules
        ]
        broken = [say(sentence) for sentence in checked.broken]
        hands.note("e-invoice-check.txt", "\n".join([*ruled, *(broken or [say("The sums are right.")]), ""]))

    def paid_in_part(self) -> Steps:
        """A part is paid by card, and a receipt printed for it."""
        yield from self.paid("25.00", "card")
        hands = self.hands
        hands.picture("28-paid-in-part")
        hands.go_to("Payments")
        hands.press("Down")
        hands.click("Receipt for the marked payment")
        yield self.page_is(PaperPage)
        self.keep_paper("payment-receipt")
        hands.press("Alt+Left")
        yield self.page_is(InvoicePage)

    def credited(self) -> Steps:
        """The belt was the shop's own fault: its line is given back by a credit note."""
        self.works("Ine")
        hands = self.hands
        hands.click("Correct it by a credit note")
        yield self.sees("Reason")
        hands.go_to("Lines of the invoice")
        hands.press("Down")
        hands.press("Space")
        yield self.idle
        hands.type_into("Reason", "The belt is on us: the first one was of the wrong length.")
        yield self.idle
        hands.picture("29-credit-note")
        hands.press("Ctrl+Return")
        yield self.gone("Issue the credit note")
        hands.go_to("Credit notes")
        hands.press("Return")
        yield self.page_is(PaperPage)
        self.keep_paper("credit-note")
        hands.press("Alt+Left")
        yield self.page_is(InvoicePage)

    def reminded(self) -> Steps:
        """Weeks later the rest is still open: the list of open items by age, and a friendly reminder."""
        self.clock.on(days=33)
        hands = self.hands
        hands.window.open("open_items")
        yield self.page_is(OpenItemsPage)
        page = hands.window.page
        assert isinstance(page, OpenItemsPage)
        hands.press("Home")
        for _ in page.found:
            if page.found[page.table.marked_key()].job_id == self.job:
                break
            hands.press("Down")
        hands.picture("30-open-items")
        hands.click("Print a reminder")
        yield self.page_is(PaperPage)
        hands.picture("31-reminder")
        self.keep_paper("reminder")
