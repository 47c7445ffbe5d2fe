"""What does the home use, and how much of the production is used there?"""
