"""How checking grows with the size of a panel: `python -m tests.benchmarks.panels [--chain] [N …]`.

Each motor has a run and a direction relay, a selector, two limits and a brake over the resting contacts. All of them
hang behind one main fuse, emergency stop and self-holding master relay. Neighbours, two and two, lock each other out
and share a lamp that shows that either runs; with `--chain` every motor is locked with the next one, and all share a
lamp: then all relays hang together, and sets are decision diagrams. Each panel is checked in a process of its own, from
reading its text to the last finding.
"""

import json
import platform
import resource
import subprocess
import sys
import tempfile
import time
from math import log
from pathlib import Path
from typing import NamedTuple

from circuitcheck.examination import examine

SIZES = (1, 2, 4, 10, 50, 200)

COMMON = """
supply PS 24 V 200 A
fuse   F0 160 A
estop  ES1 nc
button START no
relay  K0 dpdt coil 24 V 600 ohm with diode
lamp   H0 24 V 2 W
rung   PS.+, F0, ES1, ( START | K0.11-14 ), K0.A1-A2, PS.-
rung   ES1.12, K0.21-24, H0, PS.-
"""

CIRCUIT = """
fuse   F{n} 10 A
switch S{n} spdt positions raise off lower
relay  KR{n} 4pdt coil 24 V 600 ohm with diode
relay  KD{n} dpdt coil 24 V 600 ohm with diode
diode  DU{n} DD{n}
axis   deck{n} from bottom to top
limit  LT{n} nc on deck{n} at top
limit  LB{n} nc on deck{n} at bottom
motor  M{n} 24 V stall 10 A drives deck{n} toward top
rung   K0.24, F{n}, S{n}.com-raise, LT{n}, DU{n}{lock}, KR{n}.A1-A2, PS.-
rung   S{n}.lower, LB{n}, KD{n}.A1-A2, PS.-
rung   LB{n}.nc, DD{n}, DU{n}.cathode
rung   F{n}.2, KR{n}.14-11, KD{n}.12-11, M{n}, KD{n}.21-22, PS.-
wire   KR{n}.12 PS.-
wire   KD{n}.24 KD{n}.12
wire   KD{n}.14 PS.-
"""

LAMP = """
lamp   H{n} 24 V 2 W
rung   K0.24, ( KR{n}.31-34 | KR{other}.31-34 ), H{n}, PS.-
"""


def any_of(contacts: list[str]) -> str:
    """Contacts side by side, as a rung has them."""
    return f"( {' | '.join(contacts)} )" if len(contacts) > 1 else contacts[0]


def chain(motors: int) -> str:
    """The same with every motor locked with the next one and the one before, and one lamp for all."""
    lines = [COMMON]
    for n in range(1, motors + 1):
        before = f", KR{n - 1}.21-22" if n > 1 else ""
        after = f", KR{n + 1}.31-32" if n < motors else ""
        lines.append(CIRCUIT.format(n=n, lock=before + after))
    running = [f"KR{n}.41-44" for n in range(1, motors + 1)]
    lines.append(f"lamp HR 24 V 2 W\nrung K0.24, {any_of(running)}, HR, PS.-\n")
    return "".join(lines)


def panel(motors: int) -> str:
    """The plan of a panel with so many motors."""
    lines = [COMMON]
    for n in range(1, motors + 1):
        other = n + 1 if n % 2 else n - 1
        locked = other <= motors
        lines.append(CIRCUIT.format(n=n, lock=f", KR{other}.21-22" if locked else ""))
        if locked and n % 2 == 0:
            lines.append(LAMP.format(n=n, other=other))
    return "".join(lines)


class Measured(NamedTuple):
    """A panel's motors, digits, seconds to check it (by the clock, and of the processor), peak megabytes, findings."""

    motors: int
    digits: int
    seconds: float
    processor: float
    megabytes: float
    findings: int


def measure(plan: str, motors: int) -> Measured:
    """Checks a panel in this process."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "panel.plan"
        file.write_text(plan)
        beginning, begun = time.perf_counter(), time.process_time()
        found = examine(file)
    seconds, processor = time.perf_counter() - beginning, time.process_time() - begun
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    return Measured(motors, len(found.circuit.digits), seconds, processor, peak, len(found.findings))


def measure_apart(kind: str, motors: int) -> Measured:
    """Checks a panel in a process of its own, so that its peak of memory is its own too."""
    command = [sys.executable, "-m", "tests.benchmarks.panels", "--one", kind, str(motors)]
    return Measured(*json.loads(subprocess.run(command, check=True, capture_output=True, text=True).stdout))


def main(kind: str, sizes: tuple[int, ...]) -> None:
    """Prints the table."""
    print(f"Python {platform.python_version()}, {platform.machine()}, {platform.system()}")
    print(f"{'motors':>6} {'digits':>7} {'seconds':>8} {'of CPU':>7} {'MB':>6} {'findings':>9}  growth of CPU time")
    before = None
    for size in sizes:
        row = measure_apart(kind, size)
        growth = f"n^{log(row.processor / before.processor) / log(row.motors / before.motors):.2f}" if before else ""
        times = f"{row.seconds:8.2f} {row.processor:7.2f}"
        print(f"{row.motors:6} {row.digits:7} {times} {row.megabytes:6.0f} {row.findings:9}  {growth}")
        before = row


if __name__ == "__main__":
    plans = {"--pairs": panel, "--chain": chain}
    if sys.argv[1:2] == ["--one"]:
        print(json.dumps(measure(plans[sys.argv[2]](int(sys.argv[3])), int(sys.argv[3]))))
    elif sys.argv[1:2] == ["--text"]:
        print(panel(int(sys.argv[2])))
    else:
        kind = next((one for one in sys.argv[1:] if one in plans), "--pairs")
        main(kind, tuple(int(size) for size in sys.argv[1:] if size not in plans) or SIZES)
