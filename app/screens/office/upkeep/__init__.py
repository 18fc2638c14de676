"""Care of the book: copies and restoring, the check, export, one person's data."""
