"""Kit: the cook's settings and things, what is stored, and copies of it."""
