"""Jobs written by hand, each with what is special about it; their days move with the week in which the demo is built."""
