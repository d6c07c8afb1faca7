"""A client that sends exactly the bytes it is told to. It knows nothing of the protocol beyond the length header."""

import json
import queue
import subprocess
import threading


class Raw:
    def __init__(self, command):
        self.process = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE)
        self.messages = queue.Queue()
        self.last_id = 0
        threading.Thread(target=self._read, daemon=True).start()

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.process.kill()
        self.process.wait()

    def _read(self):
        while header := self.process.stdout.readline():
            length = int(header.split(b":")[1])
            self.process.stdout.readline()
            body = self.process.stdout.read(length)
            if len(body) < length:
                return
            self.messages.put(json.loads(body))

    def write(self, data):
        self.process.stdin.write(data)
        self.process.stdin.flush()

    def frame(self, message):
        body = json.dumps({"jsonrpc": "2.0", **message}).encode()
        return b"Content-Length: %d\r\n\r\n%s" % (len(body), body)

    def notify(self, method, params=None):
        self.write(self.frame({"method": method, "params": params}))

    def request(self, method, params=None):
        self.last_id += 1
        self.write(self.frame({"id": self.last_id, "method": method, "params": params}))
        while (message := self.receive()).get("id") != self.last_id or "method" in message:
            pass
        return message

    def receive(self, timeout=10):
        return self.messages.get(timeout=timeout)

    def answers_next(self, method, params=None):
        """Whether the next message is the answer to this question: nothing else was still to be told."""
        self.last_id += 1
        self.write(self.frame({"id": self.last_id, "method": method, "params": params}))
        message = self.receive()
        return message.get("id") == self.last_id and "method" not in message

    def greet(self, capabilities=None, **more):
        answer = self.request("initialize", {"processId": None, "capabilities": capabilities or {}, **more})
        self.notify("initialized", {})
        return answer["result"]

    def open(self, uri, text, version=1):
        document = {"uri": uri, "languageId": "finwright", "version": version, "text": text}
        self.notify("textDocument/didOpen", {"textDocument": document})

    def change(self, uri, version, start, end, text):
        self.write(self.change_frame(uri, version, start, end, text))

    def change_frame(self, uri, version, start, end, text):
        place = {
            "start": {"line": start[0], "character": start[1]},
            "end": {"line": end[0], "character": end[1]},
        }
        params = {
            "textDocument": {"uri": uri, "version": version},
            "contentChanges": [{"range": place, "text": text}],
        }
        return self.frame({"method": "textDocument/didChange", "params": params})

    def diagnostics(self, uri, version=None):
        """The next diagnostics of the document, or those of the given version."""
        while True:
            message = self.receive()
            if message.get("method") != "textDocument/publishDiagnostics":
                continue
            params = message["params"]
            if params["uri"] == uri and version in (None, params.get("version")):
                return params
