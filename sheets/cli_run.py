"""The command line: plain verbs, and the one place where errors become messages and exit codes.

Exit codes: 0 done, 1 job refused, 2 usage, 3 cannot write.
"""

from __future__ import annotations

import typer

from layouts.problems import JobRefused
from sheets import terminal, tongue
from sheets.cli_app import CANNOT_WRITE, REFUSED
from sheets.cli_app import app as app
from sheets.cli_help import WrongUsage, wrong_usage
from sheets.cli_work import NotReleased
from sheets.preview import NoCairo
from sheets.send import CannotSend

MOST_TOLD = 20  # differences of a packet that did not read back


def main() -> None:
    """Run a command; every foreseen error becomes a message and an exit code here."""
    terminal.prepare()
    tongue.speak("")
    try:
        raise SystemExit(app(standalone_mode=False) or 0)
    except WrongUsage as wrong:
        _complain(wrong_usage(wrong))
        raise SystemExit(wrong.exit_code) from None
    except typer.Abort:
        _complain(["Aborted!"])
        raise SystemExit(REFUSED) from None
    except JobRefused as refused:
        _refused(refused)
        raise SystemExit(REFUSED) from None
    except CannotSend as error:
        _complain(str(error).splitlines(), "Nothing was sent.")
        raise SystemExit(CANNOT_WRITE) from None
    except ModuleNotFoundError as error:
        _complain([f'A part of rodwright is not there: "{error.name}".', "Install it again. Nothing was written."])
        raise SystemExit(CANNOT_WRITE) from None
    except OSError as error:
        name = f"{error.filename}: " if error.filename else ""
        tongue.also(error.filename or "")
        _complain([f"{name}{error.strerror or error}"], "Nothing was written.")
        raise SystemExit(CANNOT_WRITE) from None
    except NotReleased as failed:
        _complain(failed.lines[:MOST_TOLD], "The files did not read back right: nothing was released.")
        raise SystemExit(CANNOT_WRITE) from None
    except NoCairo as error:
        _complain([f"--png: {error}"], "Nothing was written. Without --png the packet is printed as it should be.")
        raise SystemExit(CANNOT_WRITE) from None


def _refused(refused: JobRefused) -> None:
    """Every problem, with its line of the file where it has one."""
    from sheets import excerpt

    if refused.texts:
        tongue.speak(tongue.of_texts(refused.texts), tongue.quoted_in(refused.texts))
    excerpt.tell(refused.problems, refused.texts)
    terminal.say(f"Refused: {len(refused.problems)} to mend.", err=True)


def _complain(lines: list[str], *end: str) -> None:
    for line in (*lines, *end):
        terminal.say(line, err=True)
