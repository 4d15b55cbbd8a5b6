"""The job: numbers only. Pure functions on frozen values, float inches inside."""
