"""Pure functions and frozen values: same input, same output; no HTTP, no files, no clock, no chance."""
