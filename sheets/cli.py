"""Where a command begins: the solver is sent for before the rest of the program is loaded."""

from __future__ import annotations

import sys

from sheets import ahead


def main() -> None:
    """Run a command; ``cli_run.main`` tells how it ends."""
    with ahead.begun(sys.argv[1:]):
        from sheets import cli_run

        cli_run.main()


if __name__ == "__main__":
    main()
