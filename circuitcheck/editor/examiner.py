"""The language server's side of the process that examines plans."""

import asyncio
import pickle
import sys
from asyncio.subprocess import PIPE, Process

from circuitcheck.editor.asking import (
    HEAD,
    Answer,
    Elsewhere,
    Examine,
    Examined,
    Fix,
    Question,
    Remedies,
    Tell,
    TellWire,
    frame,
)


class Examiner:
    """Asks one question after the other. A question that nobody waits for any more ends the process, and the next
    question starts it anew: what is asked then of a plan that was not examined since has no answer."""

    def __init__(self) -> None:
        self._process: Process | None = None
        self._one_at_a_time = asyncio.Lock()

    async def examined(self, question: Examine) -> Examined:
        """Findings, or the problems why there is no verdict."""
        answer = await self._ask(question)
        return answer if isinstance(answer, Examined) else Examined((), ())

    async def told(self, question: Tell | TellWire) -> tuple[str, ...]:
        """What is known, a Markdown text each."""
        answer = await self._ask(question)
        return tuple(one for one in answer if isinstance(one, str))

    async def remedies(self, question: Remedies) -> tuple[Fix | Elsewhere, ...]:
        """The remedies that are any good, and the findings that would have to be put right elsewhere."""
        answer = await self._ask(question)
        return tuple(one for one in answer if isinstance(one, Fix | Elsewhere))

    async def stop(self) -> None:
        """Ends the process."""
        process, self._process = self._process, None
        if process is not None and process.returncode is None:
            process.kill()
            await process.wait()

    async def _ask(self, question: Question) -> Answer:
        async with self._one_at_a_time:
            try:
                return await self._answer(question)
            except (asyncio.IncompleteReadError, ConnectionError):
                # It broke down over this question: the next one finds a new process.
                await self.stop()
                return ()
            except asyncio.CancelledError:
                await self.stop()
                raise

    async def _answer(self, question: Question) -> Answer:
        if self._process is None:
            command = (sys.executable, "-m", "circuitcheck.editor.examining")
            self._process = await asyncio.create_subprocess_exec(*command, stdin=PIPE, stdout=PIPE)
        questions, answers = self._process.stdin, self._process.stdout
        assert questions is not None
        assert answers is not None
        questions.write(frame(question))
        await questions.drain()
        head = await answers.readexactly(HEAD.size)
        answer: Answer = pickle.loads(await answers.readexactly(HEAD.unpack(head)[0]))
        return answer
