"""The command line: ``python -m app`` and ``studbay``; serves the page when no command is named."""

from __future__ import annotations

import sys

from app.collector import collect_rarely
from app.command_line.entry import run


def main() -> None:
    """Run the command that the arguments name, and leave with its exit code."""
    collect_rarely()
    sys.exit(run(sys.argv[1:]))


if __name__ == "__main__":
    main()
