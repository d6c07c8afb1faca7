"""A text as an editor holds it, changed at random in all ways that people and programs change texts."""

import random

PIECES = ["x", " ", "mm", "12", "\n", "\r\n", "{", "}", "# é", "😀", '"', ": ", "; ", "lug ", "at: 3 mm from back\n", "€µ"]


class Mirror:
    """The text in UTF-16 units, as positions count them."""

    def __init__(self, text, seed):
        self.text = text
        self.rng = random.Random(seed)
        self.first = text

    def position(self, offset):
        before = self.text[:offset]
        lines = before.replace("\r\n", "\n").replace("\r", "\n").split("\n")
        # Between the two halves of a line's end there is no position.
        return {"line": len(lines) - 1, "character": len(lines[-1].encode("utf-16-le")) // 2}

    def place(self):
        offset = self.rng.randrange(len(self.text) + 1)
        inside = self.text[offset - 1 : offset + 1] == "\r\n"
        return offset - 1 if inside else offset

    def change(self):
        """One change as the protocol has it, made here too."""
        if self.rng.random() < 0.01 or len(self.text) > 3 * len(self.first):
            self.text = self.first
            return {"text": self.first}
        start = self.place()
        end = start
        kind = self.rng.random()
        if kind < 0.35:
            end = min(len(self.text), start + self.rng.choice([1, 1, 2, 5, 40]))
            end -= self.text[end - 1 : end + 1] == "\r\n"
        new = "" if kind < 0.2 else self.rng.choice(PIECES)
        if kind > 0.95:
            piece = self.rng.randrange(len(self.first))
            new = self.first[piece : piece + 60]
        # Two halves that meet by a change would make one line's end of two positions.
        if self.text[:start].endswith("\r") or new.endswith("\r") or new.startswith("\n") and self.text[:start].endswith("\r"):
            return self.change()
        if (self.text[:start] + new).endswith("\r") and self.text[end:].startswith("\n"):
            return self.change()
        end = max(start, end)
        place = {"start": self.position(start), "end": self.position(end)}
        self.text = self.text[:start] + new + self.text[end:]
        return {"range": place, "text": new}
