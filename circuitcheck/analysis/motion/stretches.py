"""Speed against time in closed form, stretch by stretch.

Over a stretch the acceleration is `push - drag * speed`: what the supply, friction and weight give is constant, what
the armature's own voltage gives falls with the speed. So the speed runs along an exponential, or a straight line where
nothing brakes. A stretch ends where the law changes: at standstill, where friction turns round, or below a diode's
drop.
"""

from collections.abc import Iterable, Iterator
from math import exp, expm1, inf, isinf, log1p
from typing import Final, NamedTuple

SMALL: Final = 1e-3
"""Below this the series is more exact than the formula that it stands for."""


class Stretch(NamedTuple):
    """seconds: how long it lasts, inf for ever. speed: at its beginning, rad/s. push: rad/s2; drag: 1/s."""

    seconds: float
    speed: float
    push: float
    drag: float

    def speed_at(self, seconds: float) -> float:
        """rad/s, so long after its beginning."""
        if isinf(seconds):
            return self.push / self.drag if self.drag else self.speed
        return self.speed + self._slope * _risen(self.drag * seconds) * seconds

    def turned_at(self, seconds: float) -> float:
        """Radians turned until then; inf where it goes on for ever."""
        if isinf(seconds):
            if self.drag and not self.push:
                return self.speed / self.drag
            return inf if self.push or self.speed else 0.0
        return self.speed * seconds + self._slope * _turned(self.drag * seconds) * seconds * seconds

    def seconds_to(self, speed: float) -> float:
        """When it has this speed; inf if never. 0 if it has it at once."""
        change = speed - self.speed
        if not change:
            return 0.0
        if not self._slope or change / self._slope < 0:
            return inf
        share = self.drag * change / self._slope
        if share >= 1:
            return inf
        return -log1p(-share) / self.drag if share > SMALL**4 else change / self._slope

    @property
    def _slope(self) -> float:
        return self.push - self.drag * self.speed


class Leads(NamedTuple):
    """What the motor's leads do to the shaft, for each unit of its inertia.

    push: what the supply gives at standstill, rad/s2. drag: what the armature's own voltage takes away for each rad/s,
    1/s; 0 with the leads open. above: through a diode it does so only above this speed, and only for what exceeds it.
    """

    push: float = 0.0
    drag: float = 0.0
    above: float | None = None


OPEN: Final = Leads()


def course(leads: Leads, friction: float, pull: float, speed: float, seconds: float = inf) -> Iterator[Stretch]:
    """How the shaft goes on from a speed, for so many seconds.

    friction: against any motion, and as much at standstill; pull: of the load's weight; both in rad/s2. At standstill
    friction holds what is weaker; else the shaft starts off, also backward.
    """
    while seconds > 0:
        stretch = _next(leads, friction, pull, speed)
        ends = min((stretch.seconds_to(one) for one in _borders(leads, speed)), default=inf)
        lasting = min(ends, seconds)
        yield stretch._replace(seconds=lasting)
        if lasting == seconds:
            return
        seconds -= lasting
        speed = min(_borders(leads, speed), key=lambda one: stretch.seconds_to(one))


def turned(stretches: Iterable[Stretch]) -> float:
    """Radians in all."""
    return sum(one.turned_at(one.seconds) for one in stretches)


def until_standstill(stretches: Iterable[Stretch]) -> Iterator[Stretch]:
    """Those before the shaft first stands still or turns round."""
    for stretch in stretches:
        if stretch.speed <= 0 and stretch.push <= 0:
            return
        yield stretch


def _next(leads: Leads, friction: float, pull: float, speed: float) -> Stretch:
    """The stretch that begins at this speed; at a border the side counts to which the shaft is going."""
    if speed == 0:
        drive = leads.push + pull
        if abs(drive) <= friction:
            return Stretch(inf, 0.0, 0.0, 0.0)
        sense = 1.0 if drive > 0 else -1.0
    else:
        sense = 1.0 if speed > 0 else -1.0
    push = leads.push + pull - sense * friction
    if leads.above is None:
        return Stretch(inf, speed, push, leads.drag)
    if speed > leads.above or (speed == leads.above and push > 0):
        return Stretch(inf, speed, push + leads.drag * leads.above, leads.drag)
    return Stretch(inf, speed, push, 0.0)


def _borders(leads: Leads, speed: float) -> list[float]:
    """The speeds other than this one at which the law changes."""
    return [one for one in {0.0, leads.above or 0.0} if one != speed]


def _risen(span: float) -> float:
    """(1 - e^-x) / x."""
    return -expm1(-span) / span if span else 1.0


def _turned(span: float) -> float:
    """(x - 1 + e^-x) / x2."""
    if span < SMALL:
        return 0.5 - span / 6 + span * span / 24 - span**3 / 120
    return (span + expm1(-span)) / (span * span) if span < 1 else (span - 1 + exp(-span)) / (span * span)
