"""Putting a text into a file in the place of what was there, whole or not at all."""

import contextlib
import os
import shutil
import tempfile
from pathlib import Path


def line_end_of(path: Path) -> str:
    """How the file's first line ends: a plan keeps the kind of line end that its writer's editor gave it."""
    with path.open("rb") as file:
        first = file.readline()
    return "\r\n" if first.endswith(b"\r\n") else "\n"


def replace_text(path: Path, text: str) -> None:
    """Gives an existing file another text. A power failure in the middle leaves the old one; links are followed."""
    content = text.replace("\n", line_end_of(path)).encode("utf-8")
    target = path.resolve()
    handle, beside = tempfile.mkstemp(dir=target.parent, prefix=f".{target.name}.")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
        shutil.copymode(target, beside)
        os.replace(beside, target)
    except BaseException:
        with contextlib.suppress(OSError):
            os.unlink(beside)
        raise
