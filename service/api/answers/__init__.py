"""How does a question become an answer, without HTTP? Parse, complete, compute, shape; one file a noun."""
