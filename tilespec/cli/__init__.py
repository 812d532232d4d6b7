"""The command line: options in, exit status out. Commands read options, call the pipeline, write and end."""

from __future__ import annotations

import sys


def main() -> None:
    """The program `tilespec`."""
    try:
        from tilespec.cli.door import run
    except KeyboardInterrupt:   # while loading
        sys.exit(130)
    sys.exit(run(sys.argv[1:]))
