"""Ends the process."""

import os
import sys
import threading
from collections.abc import Callable
from typing import NoReturn


def left_after(command: Callable[[], object]) -> NoReturn:
    """Run the command and end with its status, at once where threads are still at work that nobody waits for.

    Kernels may still be compiled in one. A thread that runs compiled code while the interpreter takes itself apart now
    and then takes the process down with it, in the midst of which the status would be lost.
    """
    try:
        command()
    except SystemExit as ended:
        if isinstance(ended.code, int) and any(thread.daemon for thread in threading.enumerate()):
            sys.stdout.flush()
            sys.stderr.flush()
            os._exit(ended.code)
        raise
    sys.exit()
