"""What a plan accepts: the part must exist, and there must be a reason. Which checks there are isn't known here."""

from circuitcheck.circuit.flattening import Scoped
from circuitcheck.circuit.resolving import Names, is_unclear, nearest_parts
from circuitcheck.plan.source import Problem
from circuitcheck.plan.syntax import Acceptance


def resolve_acceptances(flat: list[Scoped], names: Names, problems: list[Problem]) -> tuple[Acceptance, ...]:
    """The acceptances with their parts' names in full; adds what is wrong with them to `problems`."""
    found = []
    for scope, statement in flat:
        if isinstance(statement, Acceptance):
            part, reason = statement.part, statement.reason
            found.append(statement._replace(part=part._replace(text=scope + part.text)))
            if not reason.text.strip():
                help = "Write why it may stay so: whoever reads the plan next has to know."
                problems.append(Problem(reason.place, "an acceptance without a reason", help))
            if scope + part.text not in names.parts and not is_unclear(part.text, scope, names):
                help = nearest_parts(part.text, scope, names, problems)
                problems.append(Problem(part.place, f"no part {part.text}", help))
    return tuple(found)
