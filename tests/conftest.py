"""For all tests: generated cases are not timed, as a loaded machine is no fault of the code."""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("tilespec", deadline=None)
settings.load_profile("tilespec")
