"""What all tests share: how Hypothesis looks for examples."""

import os

from hypothesis import settings

# No deadline: a test must not fail because the machine is slow. In the pipeline the same
# examples are tried each time, so that a failure there can be had here.
settings.register_profile("here", deadline=None)
settings.register_profile("pipeline", deadline=None, derandomize=True)
settings.load_profile("pipeline" if os.environ.get("CI") else "here")
