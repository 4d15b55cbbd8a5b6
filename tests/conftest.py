"""Settings that all tests share: property tests try the same cases in every run."""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("rodwright", deadline=None, derandomize=True, max_examples=50)
settings.load_profile("rodwright")
