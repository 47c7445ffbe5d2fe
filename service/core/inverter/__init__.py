"""What becomes of direct current power on its way to the socket?"""
