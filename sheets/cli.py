"""Where a command begins: the solver is sent for before the rest of the program is loaded."""

from __future__ import annotations

import atexit
import gc
import sys

from sheets import ahead


def main() -> None:
    """Run a command; ``cli_run.main`` tells how it ends."""
    gc.disable()  # a run is short and makes hardly a circle: hunting for them takes a fifteenth of its time
    atexit.register(gc.freeze)  # nor at its end, where all is looked through twice: a tenth of a second of a packet
    try:
        with ahead.begun(sys.argv[1:]):
            from sheets import cli_run

            cli_run.main()
    finally:
        gc.enable()


if __name__ == "__main__":
    main()
