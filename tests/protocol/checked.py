"""A client that takes no message that the protocol's own types wouldn't: every one is read by lsprotocol."""

from lsprotocol import converters, types
from raw import Raw

CONVERTER = converters.get_converter()


class Checked(Raw):
    """Sends what it's told to, and checks what comes back."""

    def __init__(self, command):
        super().__init__(command)
        self.asked = {}
        self.checked = 0

    def frame(self, message):
        if "id" in message and "method" in message:
            self.asked[message["id"]] = message["method"]
        return super().frame(message)

    def receive(self, timeout=30):
        message = super().receive(timeout)
        self.check(message)
        return message

    def check(self, message):
        """Fails where the message isn't what the protocol says."""
        assert message["jsonrpc"] == "2.0"
        method = message.get("method")
        if method is not None:
            CONVERTER.structure(message, types.METHOD_TO_TYPES[method][0])
        elif "error" in message:
            CONVERTER.structure(message, types.ResponseErrorMessage)
        else:
            CONVERTER.structure(message, types.METHOD_TO_TYPES[self.asked[message["id"]]][1])
        self.checked += 1

    def ask(self, method, params):
        """Sends a request without waiting for its answer."""
        self.last_id += 1
        self.write(self.frame({"id": self.last_id, "method": method, "params": params}))
        return self.last_id

    def answer(self, request):
        """The answer to a request; what comes in between is checked and dropped."""
        while (message := self.receive()).get("id") != request or "method" in message:
            pass
        return message
