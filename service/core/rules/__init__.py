"""What has been published for this place, and does the set stay inside it?"""
