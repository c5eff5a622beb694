"""How one motor is driven: its parts, its rungs, and what can be promised of it."""

from typing import NamedTuple

from circuitcheck.beginning.answers import Answers


class Relay(NamedTuple):
    """contacts: form and rating; times: as the plan says them, "" where they don't matter."""

    name: str
    label: str
    contacts: str = "spdt 30 A"
    times: str = ""


class Drive(NamedTuple):
    """parts, rungs: statements and comments, in order. promises: of the motor `motor`."""

    motor: str
    relays: tuple[Relay, ...]
    parts: tuple[str, ...]
    rungs: tuple[str, ...]
    promises: tuple[str, ...]


def drives_of(answers: Answers) -> tuple[Drive, ...]:
    """A drive for each motor."""
    make = {"between": _between, "parking": _parking, "running": _running}[answers.motion]
    return tuple(make(answers, number) for number in range(1, int(answers.motors) + 1))


def feed(answers: Answers) -> str:
    """Where motors are fed from: behind fuse and emergency stop."""
    return "ES1.12" if answers.estop == "yes" else "F1.2"


def ready_feed(answers: Answers) -> str:
    """Where controls are fed from: for those that stay only once START was pressed."""
    return "KR.24" if answers.needs_start else feed(answers)


def _between(answers: Answers, number: int) -> Drive:
    """Two relays, each with one lead of the motor: released, or both operated, the leads lie together."""
    axis, motor, there, back = f"axis{number}", f"M{number}", f"K{2 * number - 1}", f"K{2 * number}"
    far, near = f"LS{2 * number - 1}", f"LS{2 * number}"
    steering = _two_ways(answers, number)
    return Drive(
        motor,
        (Relay(there, f"out {number}"), Relay(back, f"home {number}"), *steering.relays),
        (
            *steering.parts,
            f"axis {axis} from home to out",
            f"limit {far} nc on {axis} at out",
            f"limit {near} nc on {axis} at home",
            f"motor {motor} {answers.volts} V stall 10 A drives {axis} toward out",
        ),
        (
            *steering.rungs,
            f"# {motor}: each limit opens the coil of its own direction only, so that it can always be driven back.",
            f"rung {steering.out}, {far}, {there}.A1-A2, PS.-",
            f"rung {steering.home}, {near}, {back}.A1-A2, PS.-",
            f"# Each relay has one lead of {motor}. Released, both leads lie on minus: the motor is shorted on itself.",
            f"rung {feed(answers)}, {there}.14-11, {motor}, {back}.11-14, {feed(answers)}",
            f"rung {there}.12, PS.-",
            f"rung {back}.12, PS.-",
        ),
        (f"expect {axis} stops at out", f"expect {axis} stops at home"),
    )


class Steering(NamedTuple):
    """The controls of two directions. out, home: where each direction's coil is fed from; never both at once."""

    parts: tuple[str, ...]
    rungs: tuple[str, ...]
    out: str
    home: str
    relays: tuple[Relay, ...] = ()


def _two_ways(answers: Answers, number: int) -> Steering:
    if answers.control == "controller":
        return _by_contact(answers, number)
    if answers.control == "buttons":
        out, home = f"PB{2 * number - 1}", f"PB{2 * number}"
        parts = (f'button {out} spdt "out {number}"', f'button {home} no "home {number}"')
        comment = f"# {out} is a changeover: pressed, it takes the feed away from {home}. One of them counts."
        return Steering(
            parts, (comment, f"rung {ready_feed(answers)}, {out}.11-12, {home}.13"), f"{out}.14", f"{home}.14"
        )
    switch, momentary = f"S{number}", "momentary " if answers.control == "held" else ""
    described = f"switch {switch} spdt {momentary}positions out off home"
    fed = f"rung {ready_feed(answers)}, {switch}.com"
    return Steering((described,), (fed,), f"{switch}.out", f"{switch}.home")


def _by_contact(answers: Answers, number: int) -> Steering:
    """A contact has one side: a quick relay makes a changeover of it, fed before START so that it is there first."""
    contact, relay = f"OUT{number}", f"KD{number}"
    comment = (
        f"# {contact} closed: out, open: home. {relay} is quicker than KR, else the motor would start the wrong way."
    )
    rungs = (comment, f"rung F1.2, {contact}, {relay}.A1-A2, PS.-", f"rung {ready_feed(answers)}, {relay}.11")
    quick = Relay(relay, f"direction {number}", "spdt 5 A", "operate 3..8 ms release 2..6 ms")
    return Steering((f'outside {contact} contact "cue {number}"',), rungs, f"{relay}.14", f"{relay}.12", (quick,))


def _running(answers: Answers, number: int) -> Drive:
    motor, relay = f"M{number}", f"K{number}"
    controls, way = _one_way(answers, number, relay)
    return Drive(
        motor,
        (_running_relay(answers, relay, number),),
        (*controls, f"motor {motor} {answers.volts} V stall 10 A"),
        (
            f"# {motor} runs while {relay} is pulled in.",
            f"rung {ready_feed(answers)}, {way}, {relay}.A1-A2, PS.-",
            *_driven(answers, motor, relay),
        ),
        (),
    )


def _parking(answers: Answers, number: int) -> Drive:
    """The cam switch keeps the relay in until the axis has come to its park."""
    motor, relay, axis, cam = f"M{number}", f"K{number}", f"wheel{number}", f"CS{number}"
    controls, way = _one_way(answers, number, relay)
    return Drive(
        motor,
        (_running_relay(answers, relay, number),),
        (
            *controls,
            f"axis {axis} turning through park half",
            f"cam {cam} nc on {axis} at park",
            f"motor {motor} {answers.volts} V stall 10 A drives {axis} toward park",
        ),
        (
            f"# Told to stop, {motor} runs on until the cam opens {cam} at the park; then it is braked.",
            f"rung {ready_feed(answers)}, ( {way} | {cam} ), {relay}.A1-A2, PS.-",
            *_driven(answers, motor, relay),
        ),
        (),
    )


def _running_relay(answers: Answers, relay: str, number: int) -> Relay:
    """With a second pole where it has to hold itself."""
    return Relay(relay, f"run {number}", "dpdt 30 A" if answers.control == "buttons" else "spdt 30 A")


def _driven(answers: Answers, motor: str, relay: str) -> tuple[str, ...]:
    return (
        f"# Released, {relay} shorts {motor} on itself over minus.",
        f"rung {feed(answers)}, {relay}.14-11, {motor}, PS.-",
        f"rung {relay}.12, PS.-",
    )


def _one_way(answers: Answers, number: int, relay: str) -> tuple[tuple[str, ...], str]:
    """The controls of one direction, and the way through them."""
    if answers.control == "held":
        return (f'button PB{number} no "run"',), f"PB{number}"
    if answers.control == "switch":
        return (f"switch S{number} spst positions off run",), f"S{number}"
    if answers.control == "buttons":
        one, other = 2 * number - 1, 2 * number
        parts = (f'button PB{one} no "start"', f'button PB{other} nc "stop"')
        return parts, f"PB{other}, ( PB{one} | {relay}.21-24 )"
    return (f'outside OUT{number} contact "run"',), f"OUT{number}"
