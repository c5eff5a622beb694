"""Completion in a shell: the script that shtab writes knows every command, and what each takes."""

import shutil
import subprocess
import sys

import pytest

pytest.importorskip("shtab", reason="the editor extra is not installed")

import shtab

from circuitcheck.arguments import COMMANDS, whole_parser

COMPLETE = """
source /dev/stdin
COMP_WORDS=({words})
COMP_CWORD={last}
_shtab_circuitcheck
echo "${{COMPREPLY[@]}}"
"""


def completed(*words: str) -> set[str]:
    """What bash offers for the last of these words after `circuitcheck`."""
    line = COMPLETE.format(words=" ".join(f"'{word}'" for word in ("circuitcheck", *words)), last=len(words))
    script = shtab.complete(whole_parser(), "bash")
    done = subprocess.run(["bash", "-c", line], input=script, capture_output=True, text=True, check=True)
    return set(done.stdout.split())


@pytest.mark.skipif(shutil.which("bash") is None or sys.platform == "win32", reason="there is no bash")
def test_bash_completes_commands_and_options() -> None:
    """All commands; the options of the one that is written; words that an option takes."""
    assert completed("") >= set(COMMANDS)
    assert completed("ti") == {"tidy"}
    assert completed("tidy", "--") >= {"--check", "--help"}
    assert completed("check", "--fail-on", "") == {"error", "warning", "note"}


@pytest.mark.parametrize("shell", ["bash", "zsh", "tcsh"])
def test_the_documented_command_writes_a_script_for_each_shell(shell: str) -> None:
    """As the README has it."""
    command = [sys.executable, "-m", "shtab", f"--shell={shell}", "circuitcheck.arguments.whole_parser"]
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    assert "languageserver" in done.stdout
