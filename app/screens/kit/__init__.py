"""The kit that all screens are built from. Import from the modules; nothing is handed on here.

Where things are
    palette     inks by role, light and dark; ``ink("stop")``. No colour is written anywhere else.
    measure     ``px(n)``: a measure written for L = 18 in px of the text size in use; ``line()``, ``u()``, fonts;
                ``fix(widget, width=160)`` for fixed sizes that follow the text size.
    boxes       ``Column``, ``Row``, ``Flow`` (layouts in those measures); ``set_shown`` to hide and show parts.
    label       ``Label(text, kind)``: body, soft, strong, large, large strong; plain text always.
    buttons     ``Button(text, call, kind="main"|"plain"|"quiet", key="Ctrl+N")``; ``block(reason, level)``.
    fields      ``Field`` (``set_echo``, ``set_error``, ``set_seen``), ``TextArea``; ``day_field.DayField``.
    choice, combo, tick     up to five words in a row; six and more; a box to tick.
    form        ``Form``: ``section(word)``, ``row(label, field, "label", field, ...)``.
    section     ``Section(word, summary)``: folds; things go into ``.column``.
    heading     ``Heading``, ``FactLine`` (soft word and value), ``StageWord``, ``Rule``, ``Foot``.
    flags, gates, trouble, margin, matches, empty     as look/screens.md sections 7 and 9.
    cells       what stands in cells (``Words``, ``Figure``, ``Link``, ``Stage``, ``Flags``, ``Gate``, ``Two``,
                ``Drawing``), ``Column``, ``Row``, ``Group``, ``Leave``.
    rows        ``RowsModel`` (all at hand), ``PagedModel`` (all ids, rows by pages).
    table       ``Table(name, model)`` with its own scroll bar; ``SmallTable(name, columns, rows)`` on a sheet.
    gauges      ``gauge(facts)``, ``share(facts)``, ``ratio(facts)`` make ``Drawing`` cells.
    ladder, trials, circuit, life_line, comebacks     the larger drawings, from frozen facts.
    progress    ``ProgressLine``: for work over a second, with count and a way to stop.
    pdf_view    shows, prints and saves the very PDF that is filed.
    shapes, strokes, icons     for whatever paints itself.

A page
    class PartsPage(Page):                        # app.screens.page
        help_topic = "parts"
        def __init__(self, desk, key):
            super().__init__(desk)
            self.set_title(say("Parts in stock"))
            self.heading.add(Heading(say("Parts in stock")))
            self.table = SmallTable(say("Parts"), COLUMNS)
            self.sheet.add(self.table)
        def reload(self, changes=None):           # ask away from the window, show when it comes
            self.desk.doors.look_up(self, lambda: list_parts(self.desk.book), self._show, self._failed)
        def commands(self):                       # actions of app.screens.actions served here
            return {"print": self.print_list}

    Registered in the window by ``window.register("parts", "office", PartsPage)``, opened by
    ``desk.open("parts")``. A form is a ``FormPage`` (app.screens.form_page): drafts, Enter, Ctrl+Enter, Esc.
    Changes go through ``desk.change(self, work, done, failed)``, which announces them to all pages.

Rules of the kit
    Words come already worded (``say``). Facts are frozen. Every field has a name (a form gives it). Sizes are
    ``px(n)``. One main button a page. Tables stick out by u: put them in a column with margins 18, words in 27.
    ``Table`` goes on a page with ``scrolls = False``; ``SmallTable`` on a sheet that scrolls.
"""
