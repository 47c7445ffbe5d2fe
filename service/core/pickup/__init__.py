"""What must a multimeter read at the seller's door, and what does it say of the panel? Unfinished: not served yet."""
