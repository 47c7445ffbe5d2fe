"""Is this set worth buying for this home?"""
