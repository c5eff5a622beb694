"""Putting a text into a file in the place of what was there, whole or not at all."""

import contextlib
import os
import shutil
import tempfile
from pathlib import Path


def replace_text(path: Path, text: str) -> None:
    """Gives an existing file another text. A power failure in the middle leaves the old one; links are followed.

    Lines end as the first one did: as its writer's editor has it. OSError where the file may not be written.
    """
    # Replacing it takes no more than leave to change its folder; who locks a file means that nobody changes it.
    with path.open("r+b") as file:
        line_end = "\r\n" if file.readline().endswith(b"\r\n") else "\n"
    content = text.replace("\n", line_end).encode("utf-8")
    target = path.resolve()
    try:
        handle, beside = tempfile.mkstemp(dir=target.parent, prefix=f".{target.name}.")
    except OSError as error:
        reason = f"nothing can be put beside it ({error.strerror})"
        raise OSError(error.errno, reason, str(path)) from None
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
        shutil.copymode(target, beside)
        os.replace(beside, target)
    except BaseException:
        with contextlib.suppress(OSError):
            os.unlink(beside)
        raise
