"""Where current comes to a load the wrong way through a contact: those ways apart from the ones that are meant."""

from typing import NamedTuple

from circuitcheck.analysis.chains import Branch
from circuitcheck.analysis.links import links
from circuitcheck.analysis.network import Net
from circuitcheck.ladder.networks import Networks
from circuitcheck.ladder.pruning import Between


class Backward(NamedTuple):
    """A contact, and the nets from which and to which it carries current that nobody meant."""

    contact: Branch
    into: Net
    out: Net


class Side(NamedTuple):
    """What lies between a rail and a load's end: networks in a row. back: the contact (by its index) that it goes the
    wrong way through, None for what is meant."""

    chain: tuple[Between, ...]
    back: int | None


def backward_contacts(networks: Networks) -> dict[int, tuple[Backward, ...]]:
    """Those through which each load (by its index) is fed the wrong way."""
    nets = networks.facts.conduction.network.nets
    found: dict[int, tuple[Backward, ...]] = {}
    for link in links(networks.facts):
        for number, one in enumerate(networks.facts.circuit.conductors):
            if one.closed is not None and {nets[one.tail], nets[one.head]} == {link.near, link.far}:
                tail, head = networks.net(one.tail), networks.net(one.head)
                into, out = (head, tail) if nets[one.tail] == link.near else (tail, head)
                for fed in link.back:
                    backward = Backward(Branch(number, tail, head), into, out)
                    found[fed.load] = (*found.get(fed.load, ()), backward)
    return found


def sides(networks: Networks, whole: Between, contacts: tuple[Backward, ...]) -> tuple[Side, ...]:
    """A network told apart: what is meant, and for each contact the ways that go back through it. All that conducts in
    the whole conducts in one of these."""
    numbers = {branch.number for branch in whole.branches}
    concerned = [one for one in contacts if one.contact.number in numbers]
    found = [_through(networks, whole, one) for one in concerned]
    ways = [Side(chain, one.contact.number) for chain, one in zip(found, concerned, strict=True) if chain]
    meant = [_turnstile(branch, concerned) for branch in whole.branches]
    straight = networks.pruned(meant, whole.start, whole.end) if ways else whole
    if straight is None:
        # It is never fed otherwise: then nobody can have meant anything else.
        return (Side((whole,), None),)
    return (Side((straight,), None), *ways)


def _turnstile(branch: Branch, contacts: list[Backward]) -> Branch:
    """The contact as one that passes current only the way it is meant."""
    for one in contacts:
        if one.contact.number == branch.number:
            return Branch(branch.number, one.out, one.into, one_way=True)
    return branch


def _through(networks: Networks, whole: Between, backward: Backward) -> tuple[Between, ...]:
    contact, into, out = backward
    before = networks.pruned(_without(whole, contact, out), whole.start, into)
    after = networks.pruned(_without(whole, contact, into), out, whole.end)
    if before is None or after is None:
        return ()
    across = networks.pruned((contact,), into, out)
    return (before, across, after) if across else ()


def _without(whole: Between, contact: Branch, net: Net) -> list[Branch]:
    return [one for one in whole.branches if one.number != contact.number and net not in (one.tail, one.head)]
