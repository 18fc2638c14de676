"""Tables of the bench: transports, readings, trials, modifications, parts, safety, flags."""
