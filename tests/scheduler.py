"""A private CUPS scheduler on the loopback for tests: folders, port and printers of its own, nothing of the machine's.

It listens on 127.0.0.1 alone, browses nothing, keeps what it is sent, and its printers are files.
"""

from __future__ import annotations

import os
import re
import shutil
import socket
import struct
import subprocess
import time
from dataclasses import dataclass
from pathlib import Path

SBIN = os.pathsep.join((os.environ.get("PATH", ""), "/usr/sbin", "/sbin"))
PDF_PRINTER = "lsb/usr/cupsfilters/Generic-PDF_Printer-PDF.ppd"  # takes PDF; Letter, Legal, A4 and small ones
WIDE_PRINTER = "drv:///cupsfilters.drv/pwgrast.ppd"  # every size there is, and sizes of one's own; takes pictures
PATIENCE = 60.0  # seconds; far more than anything here takes

_DAEMON = """\
Listen 127.0.0.1:{port}
Browsing No
WebInterface No
DefaultAuthType None
PreserveJobFiles Yes
PreserveJobHistory Yes
DirtyCleanInterval 0
<Location />
Order allow,deny
Allow 127.0.0.1
</Location>
<Policy default>
JobPrivateAccess all
JobPrivateValues none
<Limit All>
Order deny,allow
</Limit>
</Policy>
"""
_FILES = """\
FileDevice Yes
Printcap
SystemGroup root
ServerRoot {root}/config
RequestRoot {root}/spool
TempDir {root}/temp
StateDir {root}/state
CacheDir {root}/cache
AccessLog {root}/access_log
ErrorLog {root}/error_log
PageLog {root}/page_log
"""


def missing() -> str:
    """Why there can be no scheduler here; empty if there can be one."""
    lacking = [name for name in ("cupsd", "lpadmin", "lp", "lpstat", "lpoptions") if not shutil.which(name, path=SBIN)]
    if lacking:
        return f"CUPS is not installed: no {', '.join(lacking)}"
    return "" if os.geteuid() == 0 else "Debian's cupsd starts only as root"


@dataclass(frozen=True)
class Scheduler:
    """One that runs: its folder, its port, and its process."""

    root: Path
    port: int
    process: subprocess.Popen[bytes]

    @property
    def environment(self) -> dict[str, str]:
        """What a program that talks to it needs: also a home of its own, where options are saved."""
        return {"CUPS_SERVER": f"127.0.0.1:{self.port}", "HOME": str(self.root / "home"), "PATH": SBIN}

    def run(self, *command: str) -> str:
        """Run one of CUPS's commands against it."""
        environment = {**os.environ, **self.environment, "LC_ALL": "C"}
        done = subprocess.run(command, capture_output=True, env=environment, timeout=PATIENCE, check=False)
        if done.returncode:
            raise RuntimeError(f"{command}: {done.stderr.decode(errors='replace')}")
        return done.stdout.decode()

    def printer(self, name: str, model: str, *options: str) -> Path:
        """Add a printer; the file that it prints to."""
        paper = self.root / "paper" / name
        self.run("lpadmin", "-p", name, "-E", "-v", f"file:{paper}", "-m", model, *options)
        return paper

    def wide(self, name: str) -> Path:
        """Add a printer that holds every size there is and takes PDF; the file that it prints to."""
        self.printer(name, WIDE_PRINTER)
        ppd = self.root / "config" / "ppd" / f"{name}.ppd"
        text = re.sub(r"(?m)^\*cupsFilter2?:.*\n", "", ppd.read_text(encoding="utf-8"))
        mine = self.root / f"{name}.ppd"
        mine.write_text(text + '*cupsFilter2: "application/vnd.cups-pdf application/pdf 0 -"\n', encoding="utf-8")
        self.run("lpadmin", "-p", name, "-P", str(mine))
        return self.root / "paper" / name

    def spooled(self, job: str) -> Path:
        """The document of a job as it was received."""
        return self.root / "spool" / f"d{int(job.rsplit('-', 1)[1]):05d}-001"

    def finished(self, job: str) -> dict[str, list[bytes]]:
        """Wait until *job* is printed; the attributes that its control file keeps."""
        end = time.monotonic() + PATIENCE
        while job not in self.run("lpstat", "-W", "completed", "-o"):
            if time.monotonic() > end:
                raise TimeoutError(f"{job} was not printed: {(self.root / 'error_log').read_text()[-2000:]}")
            time.sleep(0.05)
        return attributes((self.root / "spool" / f"c{int(job.rsplit('-', 1)[1]):05d}").read_bytes())

    def stop(self) -> None:
        """End it and wait for the end."""
        self.process.terminate()
        try:
            self.process.wait(PATIENCE)
        except subprocess.TimeoutExpired:
            self.process.kill()
            self.process.wait(PATIENCE)


def start(root: Path) -> Scheduler:
    """A scheduler in the folder *root*, which others than its owner must be able to enter. ``RuntimeError`` if it does
    not come up."""
    root.chmod(0o755)
    for name in ("config", "spool", "temp", "state", "cache", "home", "paper"):
        (root / name).mkdir()
    (root / "temp").chmod(0o1777)  # filters run as another user
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    (root / "cupsd.conf").write_text(_DAEMON.format(port=port))
    (root / "cups-files.conf").write_text(_FILES.format(root=root))
    daemon = shutil.which("cupsd", path=SBIN)
    assert daemon
    command = [daemon, "-f", "-c", str(root / "cupsd.conf"), "-s", str(root / "cups-files.conf")]
    scheduler = Scheduler(root, port, subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL))
    end = time.monotonic() + PATIENCE
    while scheduler.process.poll() is None and time.monotonic() < end:
        if "is running" in scheduler.run("lpstat", "-r"):
            return scheduler
        time.sleep(0.05)
    scheduler.stop()
    raise RuntimeError("cupsd did not come up")


def attributes(message: bytes) -> dict[str, list[bytes]]:
    """Names and values of an IPP message, group marks left out (RFC 8010, 3.1; from memory): after eight bytes a tag,
    two lengths and their texts each time; a value without a name belongs to the name before."""
    found: dict[str, list[bytes]] = {}
    at, last = 8, ""
    while at < len(message) and message[at] != 3:  # end of attributes
        if message[at] < 0x10:  # a new group
            at += 1
            continue
        (size,) = struct.unpack_from(">H", message, at + 1)
        last = message[at + 3 : at + 3 + size].decode() or last
        at += 3 + size
        (size,) = struct.unpack_from(">H", message, at)
        found.setdefault(last, []).append(message[at + 2 : at + 2 + size])
        at += 2 + size
    return found
