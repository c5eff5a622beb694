"""Names of parts that are probably something else."""

from collections.abc import Iterable

from circuitcheck.plan.nearest import nearest
from circuitcheck.plan.source import Problem
from circuitcheck.plan.syntax import Part


def attribute_as_name(part: Part, keywords: Iterable[str]) -> Problem | None:
    """A second or later name that is probably one of `keywords`: `relay K1 DPDT`, `relay K1 coli 12 V`.

    The first name may be any word. A list of names is written in one manner: where the first has a capital or a digit,
    a word in small letters near a keyword is hardly a name. A part that is really named so takes a line of its own.
    """
    known = frozenset(keywords)
    for name in part.names[1:]:
        text = name.text
        small = text.isalpha() and text.islower() and not part.names[0].text.islower() and len(text) > 3
        if not small and (text.lower() not in known or text in known):
            continue
        near = [one for one in nearest(text, keywords) if one == text.lower() or (small and len(one) > 3)]
        if near:
            help = f"Nearest: {', '.join(near)}. If it is the name of a part, give that part a line of its own."
            return Problem(name.place, f"`{text}` after the name {part.names[0].text}", help)
    return None
