"""From the sequence to days: labour and waits laid on the calendar."""

from tilespec.programme.stage import schedule

__all__ = ["schedule"]
