"""Hypothesis: the same examples on every run, so that a red run means a change; new ones on wish.

`HYPOTHESIS_PROFILE=search make test` looks for examples nobody has seen.
"""

from __future__ import annotations

import os

from hypothesis import settings

settings.register_profile("same", deadline=None, derandomize=True, database=None)
settings.register_profile("search", deadline=None, derandomize=False, max_examples=300)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "same"))
