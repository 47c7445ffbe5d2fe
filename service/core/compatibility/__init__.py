"""Do these panels suit this inverter, this socket and this circuit?"""
