"""A long session: changes and questions of all kinds, for minutes, with the server's memory looked at meanwhile.

  soak.py MINUTES

It prints a figure a minute and fails where memory, once what is remembered has filled up, grows from the fifth tenth of the
time to the last by more than a twentieth and 2 MB. Every message is read by the protocol's own types."""

import pathlib
import statistics
import sys
import time

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent))
from checked import Checked  # noqa: E402
from conftest import DESIGN, program  # noqa: E402
from mirror import Mirror  # noqa: E402
from test_in_step import ABLE, question  # noqa: E402

URI = "untitled:soak.finw"


def resident(process):
    """Memory of a process in MB."""
    status = pathlib.Path(f"/proc/{process.pid}/status").read_text()
    return int(next(line for line in status.splitlines() if line.startswith("VmRSS")).split()[1]) / 1024


def soak(minutes):
    begun, figures, changes, questions = time.monotonic(), [], 0, 0
    mirror = Mirror(DESIGN.read_text(), 7)
    with Checked(program()) as client:
        client.greet(ABLE)
        client.open(URI, mirror.text)
        version, next_look, next_word = 1, 0.0, 60.0
        while (passed := time.monotonic() - begun) < 60 * minutes:
            version += 1
            document = {"uri": URI, "version": version}
            client.notify("textDocument/didChange", {"textDocument": document, "contentChanges": [mirror.change()]})
            changes += 1
            if mirror.rng.random() < 0.5:
                method, params = question(mirror)
                answer = client.answer(client.ask(method, {"textDocument": {"uri": URI}, **params}))
                assert "error" not in answer, (method, params, answer)
                questions += 1
            if version % 500 == 0:
                client.notify("textDocument/didClose", {"textDocument": {"uri": URI}})
                client.open(URI, mirror.text, version)
            if passed >= next_look:
                figures.append((passed, resident(client.process)))
                next_look = passed + 60 * minutes / 200
            if passed >= next_word:
                print(f"{passed / 60:4.0f} min  {figures[-1][1]:6.1f} MB  {changes} changes, {questions} questions", flush=True)
                next_word += 60
        checked = client.checked
    whole = 60 * minutes
    early = statistics.median(size for at, size in figures if 0.4 * whole <= at < 0.5 * whole)
    late = statistics.median(size for at, size in figures if at >= 0.9 * whole)
    print(f"{changes} changes, {questions} questions, {checked} messages checked; {early:.1f} MB early, {late:.1f} MB late")
    return late <= 1.05 * early + 2


if __name__ == "__main__":
    flat = soak(float(sys.argv[1]))
    print(f"======= {int(flat)} passed, {int(not flat)} failed in 0s =======")
    sys.exit(0 if flat else 1)
