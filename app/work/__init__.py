"""What people do and ask: one function each, plain values in, frozen facts and Changes out."""
