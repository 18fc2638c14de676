"""The pages that answer the eight questions about the shop's own jobs."""
