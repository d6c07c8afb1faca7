"""An editor for timing: it opens one text in a language server, changes it, and says how long the answers take.

The clock starts when a message is written, its JSON made before, and stops when the last byte of the answer is read,
its JSON not looked at yet: the client's own work is left out, the pipe and the waking of processes are in."""

import json
import os
import select
import subprocess
import time

SECONDS = 30.0
# Silence before a message, s, so that nothing that belongs to the one before is still on its way.
SETTLE = 0.002


class Editor:
    """A language server with one open text."""

    def __init__(self, command, path, language):
        self.process = subprocess.Popen(
            command,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            cwd=path.parent,
            bufsize=0,
        )
        self.out = self.process.stdout.fileno()
        self.rest = b""
        self.last_id = 0
        self.version = 0
        self.uri = path.as_uri()
        capabilities = {
            "general": {"positionEncodings": ["utf-16"]},
            "textDocument": {"publishDiagnostics": {"versionSupport": True}, "hover": {"contentFormat": ["markdown"]}},
        }
        folders = [{"uri": path.parent.as_uri(), "name": path.parent.name}]
        root = {"rootUri": folders[0]["uri"], "workspaceFolders": folders}
        self.ask("initialize", {"processId": None, "capabilities": capabilities, **root})
        self.send({"method": "initialized", "params": {}})
        text = path.read_text(encoding="utf-8")
        item = {"uri": self.uri, "languageId": language, "version": 0, "text": text}
        self.send({"method": "textDocument/didOpen", "params": {"textDocument": item}})
        self.until(self.is_told)

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.process.kill()
        self.process.wait()
        self.process.stdin.close()
        self.process.stdout.close()

    def change(self, start, end, text):
        """Seconds from a change of the text between two (line, column) to the diagnostics of what it has become."""
        self.settle()
        begun = self.send_change(start, end, text)
        return self.until(self.is_told)[0] - begun

    def send_change(self, start, end, text):
        self.version += 1
        span = {"start": {"line": start[0], "character": start[1]}, "end": {"line": end[0], "character": end[1]}}
        document = {"uri": self.uri, "version": self.version}
        changes = [{"range": span, "text": text}]
        return self.send({
            "method": "textDocument/didChange",
            "params": {"textDocument": document, "contentChanges": changes},
        })

    def hover(self, line, column):
        """Seconds that a hover takes, and what it says."""
        self.settle()
        begun, number = self.send_hover(line, column)
        ended, message = self.until(lambda message: message.get("id") == number)
        return ended - begun, message.get("result")

    def send_hover(self, line, column):
        self.last_id += 1
        params = {"textDocument": {"uri": self.uri}, "position": {"line": line, "character": column}}
        begun = self.send({"id": self.last_id, "method": "textDocument/hover", "params": params})
        return begun, self.last_id

    def ask(self, method, params):
        self.last_id += 1
        number = self.last_id
        self.send({"id": number, "method": method, "params": params})
        return self.until(lambda message: message.get("id") == number)[1]

    def memory(self):
        """Megabytes that the server holds now."""
        with open(f"/proc/{self.process.pid}/status", encoding="ascii") as status:
            return next(int(line.split()[1]) for line in status if line.startswith("VmRSS:")) / 1024

    def is_told(self, message):
        params = message.get("params") or {}
        about = message.get("method") == "textDocument/publishDiagnostics" and params["uri"] == self.uri
        return about and params.get("version", self.version) == self.version

    def send(self, message):
        body = json.dumps({"jsonrpc": "2.0", **message}).encode()
        frame = b"Content-Length: %d\r\n\r\n%s" % (len(body), body)
        begun = time.perf_counter()
        while frame:
            frame = frame[self.process.stdin.write(frame):]
        return begun

    def until(self, wanted):
        """The first message that is wanted, with the time of its last byte; the server's own questions are answered."""
        while True:
            ended, message = self.receive(SECONDS)
            if "method" in message and "id" in message:
                items = (message.get("params") or {}).get("items")
                self.send({"id": message["id"], "result": [None] * len(items) if items else None})
            elif wanted(message):
                return ended, message

    def settle(self):
        while self.rest or select.select([self.out], [], [], SETTLE)[0]:
            self.receive(SECONDS)

    def receive(self, seconds):
        length = None
        while True:
            head, mark, body = self.rest.partition(b"\r\n\r\n")
            if mark:
                fields = dict(line.split(b": ", 1) for line in head.split(b"\r\n"))
                length = int(fields[b"Content-Length"])
                if len(body) >= length:
                    self.rest = body[length:]
                    return time.perf_counter(), json.loads(body[:length])
            if not select.select([self.out], [], [], seconds)[0]:
                raise TimeoutError("the server says nothing")
            more = os.read(self.out, 1 << 20)
            if not more:
                raise EOFError("the server has ended")
            self.rest += more
