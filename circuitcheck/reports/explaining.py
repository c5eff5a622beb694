"""What a check looks for, why, how, and a wrong and a right plan: the check's own page."""

from collections.abc import Iterator, Sequence

from circuitcheck.checks.check import Check, Example
from circuitcheck.reports.styled import EMPTY, Line, Span, labelled, line, prose

MARK = "#!"


def page_lines(check: Check, width: int) -> list[Line]:
    """The whole page of one check."""
    lines: list[Line] = [(Span(check.name, "name"), Span("  "), Span(check.severity, check.severity)), EMPTY]
    lines += [*prose(check.finds, width), EMPTY]
    for label, text in (("why", check.why), ("how", check.how), ("remedy", check.remedy), ("limits", check.limits)):
        lines += [*labelled(label, text.split(), width, margin=8), EMPTY]
    for label, examples in (("wrong", check.wrong), ("right", check.right)):
        for example in examples:
            lines += _example(label, example, width)
    return lines[:-1]


def list_lines(checks: Sequence[Check], width: int) -> list[Line]:
    """Every check with the first sentence of what it finds."""
    margin = max(len(check.name) for check in checks) + 2
    lines: list[Line] = []
    for check in checks:
        sentence = first_sentence(check)
        if width < margin + 40:
            lines += [line(check.name, "name"), *labelled("", sentence.split(), width, margin=4)]
        else:
            lines += labelled(check.name, sentence.split(), width, margin=margin)
    return [*lines, EMPTY, *prose("A page about one of them: circuitcheck explain CHECK", width)]


def first_sentence(check: Check) -> str:
    """The first sentence of what a check finds."""
    return f"{check.finds.split('. ')[0].rstrip('.')}."


def page_markdown(check: Check) -> str:
    """The page where Markdown is read, beside findings. Its words are ours, and stand as they are."""
    parts = [check.finds]
    for label, text in (("Why", check.why), ("How", check.how), ("Remedy", check.remedy), ("Limits", check.limits)):
        parts.append(f"**{label}**: {text}")
    for label, examples in (("Wrong", check.wrong), ("Right", check.right)):
        for example in examples:
            plan = "\n".join(code + arrow for code, arrow in _marked(example))
            parts.append(f"**{label}**: {example.title}:\n\n```\n{plan}\n```")
    return "\n\n".join(parts) + "\n"


def _example(label: str, example: Example, width: int) -> list[Line]:
    """A plan with its title. Where a line is marked, an arrow and the check's name stand at its end."""
    lines = labelled(label, f"{example.title}:".split(), width, margin=8)
    lines += [(*line(f"    {code}"), Span(arrow, "error")) for code, arrow in _marked(example)]
    return [*lines, EMPTY]


def _marked(example: Example) -> Iterator[tuple[str, str]]:
    """Each line of a plan, with the arrow at its end where a check finds something."""
    for text in dedented(example.plan):
        code, mark, names = text.partition(MARK)
        yield code.rstrip(), f"   <-- {names.strip()}" if mark else ""


def dedented(plan: str) -> list[str]:
    """The lines of a plan written inside Python, without the blanks that all of them begin with."""
    lines = plan.strip("\n").rstrip().split("\n")
    margin = min((len(one) - len(one.lstrip()) for one in lines if one.strip()), default=0)
    return [one[margin:] for one in lines]
