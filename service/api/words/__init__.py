"""The message catalogue: code + facts + language -> sentence."""
