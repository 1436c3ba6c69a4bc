"""Mix: from the weight on the label to what to weigh, how long, and how to soak."""
