"""Generated cases are the same in every run, so that a change is judged by what it changes.

`HYPOTHESIS_PROFILE=random python -m pytest` looks further afield; what it finds becomes an example.
"""
import os

from hypothesis import settings

settings.register_profile("repeatable", derandomize=True)
settings.register_profile("random")
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "repeatable"))
