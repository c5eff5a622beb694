"""Watching a plan: every save is looked through."""

import os
import queue
import signal
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest

pytest.importorskip("watchfiles")

PLAN = "supply PS 12 V 10 A\nfuse F1 5 A\nbutton PB1 no\nlamp L1 12 V 2 W\nrung PS.+, F1, PB1, L1, PS.-\n"


@pytest.mark.slow
@pytest.mark.skipif(os.name == "nt", reason="Ctrl+C reaches a process of its own otherwise there")
def test_a_plan_is_looked_through_each_time_it_is_saved(tmp_path: Path) -> None:
    """Slips are told and don't end it; Ctrl+C does."""
    plan = tmp_path / "lamp.plan"
    plan.write_text(PLAN)
    command = [sys.executable, "-u", "-m", "circuitcheck", "watch", str(plan)]
    watching = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
    lines: queue.Queue[str] = queue.Queue()
    output = watching.stdout
    assert output is not None

    def read() -> None:
        for line in output:
            lines.put(line)

    threading.Thread(target=read, daemon=True).start()

    def told(what: str) -> None:
        while what not in lines.get(timeout=20):
            pass

    try:
        told("This does not replace")
        # The first look is over; the watching begins beside it.
        for text, what in ((PLAN + "lamp", "lamp.plan:6"), (PLAN + "lamp L2 12 V 2 W\n", "unwired-terminal")):
            threading.Timer(1.0, plan.write_text, (text,)).start()
            told(what)
        # Told before the look is over: the watching begins again only a moment later.
        time.sleep(2)
        watching.send_signal(signal.SIGINT)
        assert watching.wait(timeout=30) == 0
    finally:
        watching.kill()
