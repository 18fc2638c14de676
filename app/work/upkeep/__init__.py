"""Care of the book: copies, restoring, checking, exporting, and one person's data."""
