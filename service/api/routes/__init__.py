"""Which path leads to which answer? One file a noun, a few lines each."""
