"""What does the set yield, and where is energy lost?"""
