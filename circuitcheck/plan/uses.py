"""Which file a `use` means, and whether a plan may read it.

A plan may come from somebody else. So that reading it can't reach files that are none of its business, what it uses
must lie in the folder of the plan that was named first, or in a folder of shared parts that the user declared.
"""

import re
from pathlib import Path

from circuitcheck.plan.source import Problem
from circuitcheck.plan.syntax import Use

_DRIVE_OR_HOME = re.compile(r"[A-Za-z]:|[/~]")


def used_file(use: Use, folder: Path, allowed: tuple[Path, ...]) -> Path | Problem:
    """The file that `use` in a file of `folder` means, symbolic links followed.

    allowed: the folders, symbolic links followed, that it must lie in.
    """
    written = use.path.text
    if _DRIVE_OR_HOME.match(written):
        help = 'Write the way from this file\'s folder, like "parts/relays.plan".'
        return Problem(use.path.place, f"\"{written}\" doesn't start from this file's folder", help)
    if "\\" in written:
        help = "Write / between folders; that works everywhere."
        return Problem(use.path.place, f'"{written}" holds a backslash', help)
    if not written.strip():
        return Problem(use.path.place, "a use of nothing", 'Name a file between the quotes, like "parts/relays.plan".')
    try:
        target = (folder / written).resolve()
    except (OSError, RuntimeError, ValueError):
        return Problem(use.path.place, f'"{written}" leads nowhere', "See whether it is a link that leads to itself.")
    if not any(target.is_relative_to(one) for one in allowed):
        what = f'"{written}" lies outside the folder of this plan'
        help = "Only files in the plan's own folder, or in a declared folder of shared parts, are read. Copy it there."
        return Problem(use.path.place, what, help)
    return target
