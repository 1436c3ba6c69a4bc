"""The journal: a batch from its first step to the plate, and many beside each other."""
