"""tilespec: a wet-room tiling job, written once in plain text, compiled to a method statement."""

__version__ = "0.1.0"
