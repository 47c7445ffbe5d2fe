"""Which small words of the ten languages join, part and price others? They mean nothing of their own.

What means something stands in the tables of words; of these only the place beside figures and goods counts.
"""

AND = frozenset(("+", "plus", "and", "und", "en", "et", "y", "e", "i", "a", "og"))
PER = frozenset(("per", "pro", "par", "por", "je", "pr", "al"))
FOR = frozenset(("for", "fur", "fuer", "voor", "pour", "por", "per", "za"))  # so much, so many
FOR_PAID = FOR | {"at", "um", "zu", "a", "po", "til"}  # so much was or is paid for it
