"""The find box: what is asked while typing, answered by kind."""
