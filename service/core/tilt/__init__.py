"""How should a panel stand?"""
