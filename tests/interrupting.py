"""Processes that a test starts and interrupts, as somebody does who presses Ctrl+C."""

import os
import signal
import subprocess
import sys
from pathlib import Path

PACKAGE = Path(__file__).parent.parent


def started(*arguments: str) -> subprocess.Popen[bytes]:
    """Python with these arguments, in a group of its own, that heeds an interrupt; its output and its errors piped.

    Tests that run in the background of a shell have the signal ignored, and so would what they start.
    """
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    try:
        return subprocess.Popen(
            [sys.executable, "-u", *arguments],
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            env=os.environ | {"PYTHONPATH": str(PACKAGE)},
            start_new_session=True,
        )
    finally:
        signal.signal(signal.SIGINT, before)


def interrupt(process: subprocess.Popen[bytes]) -> None:
    """What a terminal does with all that runs in it."""
    os.killpg(process.pid, signal.SIGINT)
