"""What a command says to a terminal of ours."""

import os


def spoken(child, ours, theirs):
    """Everything up to the end of the child, whose side of the terminal is closed here."""
    os.close(theirs)
    said = bytearray()
    while True:
        try:
            piece = os.read(ours, 65536)
        except OSError:  # The other end is closed.
            break
        if not piece:
            break
        said += piece
    os.close(ours)
    child.wait()
    return said.decode()
