"""The English sentences, one file a noun."""
