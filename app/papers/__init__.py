"""Papers: frozen facts in, PDF bytes out. `press.printed` is the door; facts need no PDF library."""
