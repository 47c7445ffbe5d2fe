"""What did the caller leave open, and what was taken instead?"""
