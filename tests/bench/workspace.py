"""What a large workspace costs whoever types in it: 10,000 designs, all of them looked at in the background.

  workspace.py FOLDER

FOLDER holds designs, as `generate.py FOLDER 10000` makes them. Printed are the time from a change to its diagnostics while
nothing else is to do, the same while the others are looked at, and the memory of the server at its most."""

import json
import os
import pathlib
import statistics
import subprocess
import sys
import threading
import time

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1]))
import built  # noqa: E402


class Editor:
    def __init__(self, folder, scope):
        self.process = subprocess.Popen([built.finwright(), "lsp"], stdin=subprocess.PIPE, stdout=subprocess.PIPE)
        self.told, self.seen, self.condition = {}, 0, threading.Condition()
        threading.Thread(target=self.read, daemon=True).start()
        folders = [{"uri": folder.as_uri(), "name": "designs"}]
        self.send({"id": 1, "method": "initialize", "params": {"processId": None, "capabilities": {}, "workspaceFolders": folders, "initializationOptions": {"diagnostics": scope}}})
        self.send({"method": "initialized", "params": {}})

    def send(self, message):
        body = json.dumps({"jsonrpc": "2.0", **message}).encode()
        self.process.stdin.write(b"Content-Length: %d\r\n\r\n%s" % (len(body), body))
        self.process.stdin.flush()

    def read(self):
        while header := self.process.stdout.readline():
            self.process.stdout.readline()
            message = json.loads(self.process.stdout.read(int(header.split(b":")[1])))
            if message.get("method") == "textDocument/publishDiagnostics":
                with self.condition:
                    params = message["params"]
                    self.told[params["uri"]] = params.get("version")
                    self.seen += 1
                    self.condition.notify_all()

    def until(self, uri, version):
        with self.condition:
            self.condition.wait_for(lambda: self.told.get(uri) == version, 60)

    def memory(self):
        status = pathlib.Path(f"/proc/{self.process.pid}/status").read_text()
        return max(int(line.split()[1]) / 1024 for line in status.splitlines() if line.startswith("VmHWM"))


def typing(editor, uri, version, count):
    """Milliseconds from each of some changes to its diagnostics."""
    times = []
    for _ in range(count):
        version += 1
        place = {"start": {"line": 0, "character": 0}, "end": {"line": 0, "character": 0}}
        params = {"textDocument": {"uri": uri, "version": version}, "contentChanges": [{"range": place, "text": "#\n"}]}
        begun = time.perf_counter()
        editor.send({"method": "textDocument/didChange", "params": params})
        editor.until(uri, version)
        times.append(1000 * (time.perf_counter() - begun))
        time.sleep(0.03)
    return version, times


def measure(folder, scope, count):
    path = sorted(folder.rglob("*.finw"))[0]
    editor = Editor(folder, scope)
    uri = path.as_uri()
    document = {"uri": uri, "languageId": "finwright", "version": 1, "text": path.read_text()}
    begun = time.perf_counter()
    editor.send({"method": "textDocument/didOpen", "params": {"textDocument": document}})
    editor.until(uri, 1)
    first = 1000 * (time.perf_counter() - begun)
    _, times = typing(editor, uri, 1, count)
    seen = editor.seen
    if scope == "workspace":
        last = -1
        while editor.seen != last:
            last = editor.seen
            time.sleep(2)
    most = editor.memory()
    editor.process.kill()
    return first, times, seen, editor.seen, most


if __name__ == "__main__":
    folder = pathlib.Path(sys.argv[1]).resolve()
    for scope in ("open", "workspace"):
        first, times, during, told, most = measure(folder, scope, 150)
        times.sort()
        print(
            f"{scope:9}  opened in {first:.1f} ms; a change {statistics.median(times):.2f} ms at the median, "
            f"{times[int(0.95 * len(times))]:.2f} ms at 95 %; {most:.0f} MB at most; {told} told"
        )
