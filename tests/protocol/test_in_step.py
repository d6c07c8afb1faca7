"""3,000 changes at random, mixed with questions: every answer belongs to exactly the text before it, every message is
what the protocol says, and a burst costs no more than it must."""

import random

import pytest
from checked import Checked
from conftest import position, program
from mirror import Mirror

URI = "untitled:in_step.finw"
OTHER = "untitled:other.finw"
CHANGES = 3000
MODIFIED = -32801

ABLE = {
    "textDocument": {
        "codeAction": {"codeActionLiteralSupport": {"codeActionKind": {"valueSet": []}}},
        "completion": {"completionItem": {"snippetSupport": True, "insertReplaceSupport": True}},
        "hover": {"contentFormat": ["markdown"]},
        "publishDiagnostics": {"relatedInformation": True, "tagSupport": {"valueSet": [1, 2]}},
    },
    "workspace": {"workspaceEdit": {"documentChanges": True}},
}


def question(mirror):
    """A question about the text as it is."""
    here = mirror.position(mirror.place())
    whole = {"start": {"line": 0, "character": 0}, "end": {"line": 10**6, "character": 0}}
    at = {"position": here}
    return mirror.rng.choice(
        [
            ("textDocument/hover", at),
            ("textDocument/completion", at),
            ("textDocument/definition", at),
            ("textDocument/documentHighlight", at),
            ("textDocument/signatureHelp", at),
            ("textDocument/codeAction", {"range": {"start": here, "end": here}, "context": {"diagnostics": []}}),
            ("textDocument/documentSymbol", {}),
            ("textDocument/foldingRange", {}),
            ("textDocument/semanticTokens/full", {}),
            ("textDocument/selectionRange", {"positions": [here]}),
            ("textDocument/inlayHint", {"range": whole}),
            ("textDocument/formatting", {"options": {"tabSize": 2, "insertSpaces": True}}),
        ]
    )


def without_names(value):
    """The same without what differs between two documents of one text: their names and versions."""
    if isinstance(value, dict):
        # A text that came whole was never being typed, so what isn't finished is told loudly there.
        left_out = ("uri", "version", "severity")
        return {key: without_names(one) for key, one in value.items() if key not in left_out}
    if isinstance(value, list):
        return [without_names(one) for one in value]
    return value


@pytest.mark.timeout(600)
@pytest.mark.long
def test_every_answer_belongs_to_the_text_before_it(design):
    with Checked(program()) as client, Checked(program()) as fresh:
        for one in (client, fresh):
            one.greet(ABLE)
        mirror = Mirror(design, 41)
        client.open(URI, design)
        compared = outdated = 0
        for version in range(2, CHANGES + 2):
            document = {"uri": URI, "version": version}
            client.notify("textDocument/didChange", {"textDocument": document, "contentChanges": [mirror.change()]})
            if mirror.rng.random() < 0.6:
                continue
            method, params = question(mirror)
            request = client.ask(method, {"textDocument": {"uri": URI}, **params})
            text = mirror.text
            # Now and then the text moves on before the answer can be there.
            if mirror.rng.random() < 0.2:
                document = {"uri": URI, "version": version}
                client.notify("textDocument/didChange", {"textDocument": document, "contentChanges": [mirror.change()]})
            answer = client.answer(request)
            if answer.get("error", {}).get("code") == MODIFIED:
                outdated += 1
                continue
            assert "error" not in answer, (version, method, params, answer)
            fresh.open(OTHER, text)
            wanted = fresh.answer(fresh.ask(method, {"textDocument": {"uri": OTHER}, **params}))
            fresh.notify("textDocument/didClose", {"textDocument": {"uri": OTHER}})
            assert without_names(answer.get("result")) == without_names(wanted.get("result")), (version, method, params)
            compared += 1
        assert compared > 900 and outdated > 20, (compared, outdated)
        assert client.checked > CHANGES / 3


def test_a_burst_of_changes_costs_at_most_two_analyses(design):
    with Checked(program()) as client:
        client.greet(ABLE)
        client.open(URI, design)
        client.diagnostics(URI)
        line, column = position(design, "caliber\n    inner")
        version = 1
        for _ in range(20):
            frames = []
            for _ in range(40):
                version += 1
                frames.append(client.change_frame(URI, version, (line, column), (line, column), random.choice("xy ")))
            client.write(b"".join(frames))
            seen = [client.diagnostics(URI)["version"]]
            while seen[-1] != version:
                seen.append(client.diagnostics(URI)["version"])
            assert len(seen) <= 2, seen


def test_a_design_typed_letter_by_letter_is_never_shouted_at(design):
    """While somebody types from top to bottom nothing is an error, for nothing is wrong but what isn't there yet."""
    with Checked(program()) as client:
        client.greet(ABLE)
        client.open(URI, "")
        client.diagnostics(URI)
        line = column = 0
        loud = {}
        for version, letter in enumerate(design, start=2):
            client.change(URI, version, (line, column), (line, column), letter)
            line, column = (line + 1, 0) if letter == "\n" else (line, column + len(letter.encode("utf-16-le")) // 2)
            for found in client.diagnostics(URI, version)["diagnostics"]:
                if found["severity"] <= 2:
                    loud.setdefault((found["severity"], found["code"]), found["message"].splitlines()[0])
        # A guide placed from the balance point waits for the motor that balances, some lines further down.
        assert set(loud) <= {(2, "file/missing-field")}, loud
