"""The tables: the only code that opens files. Each table stands beside its loader."""
