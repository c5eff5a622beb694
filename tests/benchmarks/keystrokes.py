"""How long an editor waits for the answer to a keystroke.

Run: python -m tests.benchmarks.keystrokes

A plan of some 200 lines (four drawbridges on one supply) is open in a real client, over stdio. A rung is typed in the
middle of it, letter by letter, ten a second, and taken away again. After each letter the client asks what editors ask:
completion and colours. The answer is there when both are. Meanwhile the plan is looked through in the other process, as
it is while somebody writes. Told besides: from the last letter of a finished line to its findings, the pause included.
"""

import asyncio
import re
import tempfile
import time
from pathlib import Path
from statistics import median, quantiles

from lsprotocol import types

from tests.editor.client import Editor, editing

EXAMPLE = Path(__file__).parent.parent.parent / "examples" / "right" / "drawbridge.plan"
COPIES = 4
ROUNDS = 12
BETWEEN = 0.1
TYPED = "rung   F1_2.2, L1_2.1\n"
NAME = re.compile(r"\b(F1|ES1|START|S1|K\d|V1|D\d|L1|LS\d|M1|deck)\b")


def plan() -> str:
    """Four drawbridges on one supply, each with a fuse of its own."""
    lines = EXAMPLE.read_text(encoding="utf-8").splitlines()
    shared = [line for line in lines if line.startswith(("supply", "type", "conditions"))]
    own = "\n".join(line for line in lines if not line.startswith(("#", "plan", *shared)))
    copies = [NAME.sub(rf"\1_{number}", own) for number in range(COPIES)]
    return "\n".join(["plan Four", *shared, re.sub(r"\bw\d+\b", "", "\n".join(copies))])


async def measure(editor: Editor) -> tuple[list[float], list[float]]:
    """Seconds to answer each keystroke, and from each finished line to its findings."""
    text = plan()
    editor.open("four.plan", text)
    await editor.told("four.plan", lambda _: True)
    line = text.count("\n") // 2
    answers, findings = [], []
    document = editor.document("four.plan")
    for _ in range(ROUNDS):
        for number, letter in enumerate(TYPED):
            start = time.perf_counter()
            editor.type("four.plan", line, number, letter)
            at = types.Position(line, number + 1)
            await asyncio.gather(
                editor.client.text_document_completion_async(types.CompletionParams(document, at)),
                editor.client.text_document_semantic_tokens_full_async(types.SemanticTokensParams(document)),
            )
            answers.append(time.perf_counter() - start)
            await asyncio.sleep(max(0.0, BETWEEN - answers[-1]))
        start = time.perf_counter()
        while not editor.shown.empty():
            editor.shown.get_nowait()
        editor.type("four.plan", line + 1, 0, "#")
        await editor.told("four.plan", lambda shown: all(one.code for one in shown))
        findings.append(time.perf_counter() - start)
        editor.delete("four.plan", (line, 0), (line + 1, 1))
    return answers, findings


async def main() -> None:
    """Prints the table."""
    print(f"{plan().count(chr(10))} lines")
    with tempfile.TemporaryDirectory() as folder:
        async with editing(Path(folder)) as editor:
            answers, findings = await measure(editor)
    high = quantiles(answers, n=20)[-1]
    print(f"{len(answers)} keystrokes: median {median(answers) * 1000:.0f} ms, 95th percentile {high * 1000:.0f} ms, "
          f"longest {max(answers) * 1000:.0f} ms")  # fmt: skip
    print(f"to findings: median {median(findings) * 1000:.0f} ms, longest {max(findings) * 1000:.0f} ms")


if __name__ == "__main__":
    asyncio.run(main())
