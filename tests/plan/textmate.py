"""`grammar/plan.tmLanguage.json` as it follows from `grammar/plan.lark` and the units: colours for editors by pattern.

`python -m tests.plan.textmate` writes it anew.
"""

import json
from collections.abc import Iterable

from circuitcheck.circuit.units import UNITS
from circuitcheck.plan.grammar import grammar_file
from circuitcheck.plan.tokens import words_of
from circuitcheck.plan.words import EXAMPLES

FILE = grammar_file().with_name("plan.tmLanguage.json")
NUMBER = r"[0-9]+(?:\.[0-9]+)?"
NAME = r"[^\W\d_]\w*"
MARK = r"(?:\w+|[+-])"


def words_of_the_language() -> set[str]:
    """Every word that stands in a plan just so, also those that begin a statement: some stand within others too."""
    return {word for word in words_of() if word[0].isalnum()}


def alternatives(words: Iterable[str]) -> str:
    """One of these words; the longer ones first, as the first that fits is taken."""
    return "|".join(sorted(words, key=lambda word: (-len(word), word)))


def scope(name: str) -> dict[str, str]:
    """How the pattern's match is called."""
    return {"name": f"{name}.circuitcheck"}


def textmate() -> str:
    """The file's text."""
    quantity = rf"(?<![\w.-])({NUMBER}(?:\.\.{NUMBER})?)\s*({alternatives(UNITS)})(?!\w)"
    terminal = rf"(?<![\w.-])({NAME})((?:\.\w+)*\.{MARK}(?:-{MARK})?)?"
    patterns = [
        scope("comment.line.number-sign") | {"match": "#.*$"},
        scope("string.quoted.double") | {"match": '"[^"]*"'},
        {"match": rf'^\s*({alternatives(EXAMPLES)})(?=\s|$|#|")', "captures": {"1": scope("keyword.control")}},
        {"match": quantity, "captures": {"1": scope("constant.numeric"), "2": scope("keyword.other.unit")}},
        scope("keyword.other") | {"match": rf"(?<![\w.-])(?:{alternatives(words_of_the_language())})(?![\w.-])"},
        {"match": terminal, "captures": {"1": scope("variable.other"), "2": scope("variable.other.member")}},
        scope("keyword.operator") | {"match": "[,:|()]"},
    ]
    whole = {
        "name": "circuitcheck plan",
        "scopeName": "source.circuitcheck",
        "fileTypes": ["plan"],
        "patterns": patterns,
    }
    return json.dumps(whole, indent=2, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    FILE.write_text(textmate(), encoding="utf-8")
