"""What does a panel give at this light and temperature, and does its datasheet make sense?"""
