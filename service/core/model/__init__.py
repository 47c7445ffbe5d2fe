"""The shared values: what the rooms hand to each other. Imports nothing of ours but the errors."""
