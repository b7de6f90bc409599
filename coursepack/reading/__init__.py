"""Sources to records: every fault of every file at once, each with its line."""
