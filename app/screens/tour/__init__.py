"""The tour: one player's whole way through the real window, driven by keys, kept as pictures and papers."""
