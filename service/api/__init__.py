"""HTTP: it speaks, and never computes."""
