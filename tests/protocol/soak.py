"""A long session: changes and questions of all kinds, with the server's memory looked at meanwhile.

  soak.py CHANGES

It prints a figure each tenth of the way and fails where memory, once what is remembered has filled up, grows from the fifth
tenth to the last by more than a fortieth and 1 MB. It is as long on a slow machine as on a quick one. Every message is
read by the protocol's own types."""

import pathlib
import statistics
import sys

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


def soak(changes):
    figures, questions = [], 0
    mirror = Mirror(DESIGN.read_text(), 7)
    with Checked(program()) as client:
        client.greet(ABLE)
        client.open(URI, mirror.text)
        # The text that is opened is the first version.
        for version in range(2, changes + 2):
            document = {"uri": URI, "version": version}
            client.notify("textDocument/didChange", {"textDocument": document, "contentChanges": [mirror.change()]})
            if mirror.rng.random() < 0.5:
                method, params = question(mirror)
                answer = client.answer(client.ask(method, {"textDocument": {"uri": URI}, **params}))
                assert "error" not in answer, (method, params, answer)
                questions += 1
            if version % 500 == 0:
                client.notify("textDocument/didClose", {"textDocument": {"uri": URI}})
                client.open(URI, mirror.text, version)
            passed = version - 1
            if passed % (changes // 200) == 0:
                figures.append((passed / changes, resident(client.process)))
            if passed % (changes // 10) == 0:
                print(f"{passed} changes, {questions} questions: {figures[-1][1]:.1f} MB", flush=True)
        checked = client.checked
    early = statistics.median(size for at, size in figures if 0.4 <= at < 0.5)
    late = statistics.median(size for at, size in figures if at >= 0.9)
    print(f"{changes} changes, {questions} questions, {checked} messages checked; {early:.1f} MB early, {late:.1f} MB late")
    return late <= 1.025 * early + 1


if __name__ == "__main__":
    flat = soak(int(sys.argv[1]))
    print(f"======= {int(flat)} passed, {int(not flat)} failed in 0s =======")
    sys.exit(0 if flat else 1)
