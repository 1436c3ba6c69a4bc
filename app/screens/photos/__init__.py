"""Photos: taken in, measured, set beside each other."""
