"""Two folders change places in one step, where the system can do that."""

from __future__ import annotations

import errno
import os
import sys
from pathlib import Path


def swap(one: Path, other: Path) -> bool:
    """Exchange two folders in one step, so that there is no moment without either: Linux's renameat2 with
    RENAME_EXCHANGE. ``False`` where the system, its C library or the file system has no such step."""
    if sys.platform != "linux":
        return False
    import ctypes

    call = getattr(ctypes.CDLL(None, use_errno=True), "renameat2", None)
    if call is None:
        return False
    here, exchange = -100, 2  # AT_FDCWD and RENAME_EXCHANGE, as in <fcntl.h> and <linux/fs.h>
    if call(here, os.fsencode(one), here, os.fsencode(other), ctypes.c_uint(exchange)) == 0:
        return True
    number = ctypes.get_errno()
    if number in (errno.EINVAL, errno.ENOSYS, errno.ENOTSUP):
        return False
    raise OSError(number, os.strerror(number), str(other))
