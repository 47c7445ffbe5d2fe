"""Where is the sun, how does a typical year of hours look, and what falls on a tilted plane?"""
