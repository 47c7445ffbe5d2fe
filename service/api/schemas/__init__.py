"""In which shapes do questions come in and answers go out? One file a noun; ``In`` is strict, ``Out`` may grow."""
