"""Tables of the office: invoices, payments, papers, settings, numbers."""
