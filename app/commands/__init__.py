"""The command line: words in, words and an exit code out. Never Qt."""
