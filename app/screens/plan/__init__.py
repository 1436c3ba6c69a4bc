"""Now, the plan of a batch and its reminders."""
