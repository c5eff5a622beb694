"""The parser for statements, made from `grammar/plan.lark`.

Working out the parser's tables takes many times as long as reading a plan, so they are kept in the user's own cache
folder. That file is only believed when its checksum, kept beside it, is right: a half-written one would be noticed by
the reading of it, a damaged one might not.
"""

import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from circuitcheck import __version__
from circuitcheck.plan.builder import Builder

if TYPE_CHECKING:
    from lark import Lark

_PACKAGE = Path(__file__).parent.parent


def grammar_file(package: Path = _PACKAGE) -> Path:
    """The grammar's file: inside the package once installed, in the folder above it in a checkout."""
    inside = package / "grammar" / "plan.lark"
    return inside if inside.is_file() else package.parent / "grammar" / "plan.lark"


def cache_folder() -> Path:
    """The user's own folder for what can be made again; it need not exist."""
    if sys.platform == "win32":
        named = os.environ.get("LOCALAPPDATA", "")
    else:
        named = os.environ.get("XDG_CACHE_HOME", "")
    # The XDG Base Directory Specification has relative paths ignored.
    return (Path(named) if os.path.isabs(named) else Path.home() / ".cache") / "circuitcheck"


def load_parser(builder: Builder | None, folder: Path | None = None) -> "Lark":
    """A parser that reads one statement and calls `builder` on the way; its tables are kept in `folder` if possible.

    With no builder nothing is made of what is read: that is for who asks only for its tokens.
    """
    import lark

    grammar = grammar_file().read_text(encoding="utf-8")
    kept = _prepared(folder or cache_folder(), lark.__version__)
    if kept is None:
        return _parser(grammar, builder, False)
    believed = _checksum_is_right(kept)
    parser = _parser(grammar, builder, str(kept))
    if not believed:
        _write_checksum(kept)
    return parser


def tables_are_kept(folder: Path | None = None) -> bool:
    """Has a parser of this version kept its tables? Processes that begin at once would else each work them out."""
    return any((folder or cache_folder()).glob(f"grammar-{__version__}-*.sha256"))


def _parser(grammar: str, builder: Builder | None, cache: str | bool) -> "Lark":
    from lark import Lark

    # lark asks of a transformer only that it has the methods.
    return Lark(grammar, parser="lalr", lexer="contextual", cache=cache, transformer=builder)


def _prepared(folder: Path, lark_version: str) -> Path | None:
    """Where the tables are kept, with nothing there that can't be believed; None where the folder can't be used."""
    kept = folder / f"grammar-{__version__}-lark-{lark_version}-python-{sys.version_info[0]}.{sys.version_info[1]}"
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        if not _checksum_is_right(kept):
            kept.unlink(missing_ok=True)
    except OSError:
        return None
    return kept if os.access(folder, os.W_OK) else None


def _checksum_file(kept: Path) -> Path:
    return kept.with_name(kept.name + ".sha256")


def _checksum(kept: Path) -> str:
    from hashlib import sha256

    return sha256(kept.read_bytes()).hexdigest()


def _checksum_is_right(kept: Path) -> bool:
    try:
        return _checksum_file(kept).read_text("ascii") == _checksum(kept)
    except (OSError, ValueError):
        return False


def _write_checksum(kept: Path) -> None:
    try:
        _checksum_file(kept).write_text(_checksum(kept), "ascii")
    except OSError:
        return
