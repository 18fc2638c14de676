"""The search index: folded words that the door keeps in step."""
