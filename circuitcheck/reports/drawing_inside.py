"""What stands inside a part's box of the wiring drawing: contacts, coils, lamps, each between its terminals."""

from collections.abc import Iterator

from circuitcheck.circuit.model import Circuit, Terminal
from circuitcheck.drawing.boxes import LANE, has_brushes
from circuitcheck.drawing.content import Group, Inner
from circuitcheck.drawing.drawing import PlacedBox
from circuitcheck.drawing.shown import Shown
from circuitcheck.reports.actuators import ACTUATORS
from circuitcheck.reports.drawing_symbols import GRAPHICS, HALF

Spot = tuple[float, float]


def inside(circuit: Circuit, box: PlacedBox, shown: Shown) -> Iterator[str]:
    """All of it."""
    for group in box.content.groups:
        contacts = [one for one in group.inner if one.kind == "contact"]
        if has_brushes(group):
            yield from _motor(box, group, circuit, shown)
        elif len(contacts) > 1:
            yield from _changeover(box, contacts, circuit, shown)
        else:
            yield from _each(box, group, circuit, shown)
    if box.content.worked:
        yield from _worked_from_above(box)


def _starts(box: PlacedBox) -> dict[Terminal, Spot]:
    """Where each terminal's line begins, beside its mark."""
    shape, found = box.shape, dict[Terminal, Spot]()
    for number, row in enumerate(shape.rows):
        y = box.y + shape.middle(number)
        found |= {row.left: (box.x + shape.marks[0], y)} if row.left else {}
        found |= {row.right: (box.x + shape.width - shape.marks[1], y)} if row.right else {}
    return found


def _middle(box: PlacedBox) -> float:
    return box.x + (box.shape.marks[0] + box.shape.width - box.shape.marks[1]) / 2


def _opening(circuit: Circuit, members: tuple[Inner, ...], shown: Shown) -> str:
    """The group that things with the same terminals stand in, with what a page needs to know of them."""
    conductors = [one.conductor for one in members if one.conductor is not None]
    loads = [one.load for one in members if one.load is not None]
    words = [shown.conductors.get(one, "") for one in conductors] + [shown.loads.get(one, "") for one in loads]
    closed = "closed" if any(one in shown.closed for one in conductors) else ""
    kind = "contact" if members[0].kind == "contact" else ""
    attributes = ""
    if conductors:
        attributes += f' data-conductors="{" ".join(map(str, conductors))}"'
        digits = [one.closed.digit for number in conductors if (one := circuit.conductors[number]).closed]
        attributes += f' data-digit="{digits[0]}"' if digits else ""
    if loads:
        attributes += f' data-load="{" ".join(map(str, loads))}"'
    classes = " ".join(filter(None, ["inner", kind, closed, *dict.fromkeys(words)]))
    return f'<g class="{classes}"{attributes}>'


def _each(box: PlacedBox, group: Group, circuit: Circuit, shown: Shown) -> Iterator[str]:
    """What joins two terminals each: across a row, or upright between two rows, those of one pair side by side."""
    starts, middle = _starts(box), _middle(box)
    lanes: dict[frozenset[Terminal], int] = {}
    pairs = [frozenset((one.a, one.b)) for one in group.inner]
    most = max((pairs.count(pair) for pair in pairs), default=0)
    for one, pair in zip(group.inner, pairs, strict=True):
        lane = lanes[pair] = lanes.get(pair, -1) + 1
        (ax, ay), (bx, by) = starts[one.a], starts[one.b]
        yield _opening(circuit, (one,), shown)
        if ay == by:
            sign = 1 if ax < bx else -1
            yield _line((ax, ay), (middle - sign * HALF, ay)) + _line((middle + sign * HALF, by), (bx, by))
            yield _graphic(one, middle, ay, 0 if sign > 0 else 180)
        else:
            x, y = middle + (lane - (most - 1) / 2) * LANE, (ay + by) / 2
            sign = 1 if ay < by else -1
            # Rows are less apart than a graphic is long, so that it is drawn smaller.
            size = min(1.0, abs(by - ay) / (2 * HALF))
            yield _line((ax, ay), (x, ay), (x, y - sign * HALF * size))
            yield _line((x, y + sign * HALF * size), (x, by), (bx, by))
            actuator = ACTUATORS.get(box.content.part.kind, "") if one.kind == "contact" else ""
            yield _graphic(one, x, y, 90 * sign, size, actuator)
        yield "</g>"


def _worked_from_above(box: PlacedBox) -> Iterator[str]:
    """One actuator for all contacts that lie across or change over, and the link by which it moves their blades."""
    starts, x = _starts(box), _middle(box)
    heights = []
    for group in box.content.groups:
        common = starts[group.inner[0].a][1]
        if len(group.inner) > 1 or common == starts[group.inner[0].b][1]:
            heights.append(common)
    if heights:
        top = box.y + box.shape.head
        yield f'<g transform="translate({x:.1f} {top + 4:.1f})">{ACTUATORS[box.content.part.kind]}</g>'
        yield f'<path class="line link" d="M{x:.1f} {top:.1f}V{max(heights):.1f}"/>'


def _graphic(one: Inner, x: float, y: float, turned: int, size: float = 1.0, actuator: str = "") -> str:
    kind = "break contact" if one.breaks else one.kind
    scale = f" scale({size:.2f})" if size < 1 else ""
    drawn = f'<g transform="translate({x:.1f} {y:.1f}) rotate({turned}){scale}">{GRAPHICS[kind]}{actuator}</g>'
    return drawn + (_letter_m(x, y) if one.kind == "motor" else "")


def _letter_m(x: float, y: float) -> str:
    return f'<path class="line letter" d="M{x - 3:.1f} {y + 4:.1f}v-8l3 5l3 -5v8"/>'


def _changeover(box: PlacedBox, contacts: list[Inner], circuit: Circuit, shown: Shown) -> Iterator[str]:
    """A blade that turns on its common terminal and lies on the throw that is closed."""
    starts, middle = _starts(box), _middle(box)
    common, pivot, pin = starts[contacts[0].a], middle - 11, middle + 11
    y = common[1]
    yield _line(common, (pivot, y))
    for one in contacts:
        x, to = starts[one.b]
        yield _opening(circuit, (one,), shown) + _line(common, (pivot, y), kind="line feed")
        yield _line((x, to), (pin, to)) + f'<circle class="line field" cx="{pin:.1f}" cy="{to:.1f}" r="2.4"/>'
        if one.breaks:
            yield f'<path class="line" d="M{pin - 2.4:.1f} {to:.1f}h-5"/>'
        tip = to + (1.8 if y > to else -1.8)
        yield f'<path class="line blade" d="M{pivot:.1f} {y:.1f}L{pin - 1.6:.1f} {tip:.1f}"/></g>'
    yield f'<circle class="dot" cx="{pivot:.1f}" cy="{y:.1f}" r="2.4"/>'


def _motor(box: PlacedBox, group: Group, circuit: Circuit, shown: Shown) -> Iterator[str]:
    """Several brushes on one armature: a circle as high as their rows."""
    starts, x = _starts(box), _middle(box)
    windings = tuple(one for one in group.inner if one.kind == "motor")
    brushes = dict.fromkeys(end for one in windings for end in (one.a, one.b))
    heights = [starts[end][1] for end in brushes]
    y, radius = (min(heights) + max(heights)) / 2, (max(heights) - min(heights)) / 2 + 3
    for one in group.inner:
        if one.kind == "bond":
            (_, ay), (bx, by) = starts[one.a], starts[one.b]
            beside = x + radius + 4
            yield _opening(circuit, (one,), shown) + _line((x, ay), (beside, ay), (beside, by), (bx, by)) + "</g>"
    yield _opening(circuit, windings, shown)
    for end in brushes:
        yield _line(starts[end], (x, starts[end][1]))
    yield f'<circle class="line field" cx="{x:.1f}" cy="{y:.1f}" r="{radius:.1f}"/>{_letter_m(x, y)}</g>'


def _line(*spots: Spot, kind: str = "line") -> str:
    return f'<path class="{kind}" d="M{"L".join(f"{x:.1f} {y:.1f}" for x, y in spots)}"/>'
