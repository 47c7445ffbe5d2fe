"""From energy to self-use to money, spelled once."""
