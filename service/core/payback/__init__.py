"""What are yearly flows of money worth?"""
