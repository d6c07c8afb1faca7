"""Bytes in, bytes out: framing, order under load, and every way to end."""

import contextlib
import json
import subprocess

import pytest
from conftest import position, program, slip
from raw import Raw

URI = "untitled:reed_heron.finw"


@pytest.fixture
def raw():
    with Raw(program()) as client:
        yield client


def codes(params):
    return [diagnostic.get("code") for diagnostic in params["diagnostics"]]


@pytest.mark.parametrize(
    "bad, code",
    [
        (b'Content-Length: 8\r\n\r\n{"id": 1,', -32700),
        (b"Content-Length: 3\r\n\r\n\xff\xfe\xfd", -32700),
        (b"Content-Length: 9\r\n\r\n[1, 2, 3]", -32600),
        (b'Content-Length: 9\r\n\r\n{"a": []}', -32600),
        (b"Content-Length: many\r\n\r\n", -32700),
        (b"Nonsense: 1\r\n\r\n", -32700),
    ],
    ids=["broken JSON", "no UTF-8", "a list", "no method", "no number", "no length"],
)
def test_a_bad_message_costs_that_message(raw, design, bad, code):
    raw.greet()
    raw.write(bad)
    answer = raw.receive()
    assert (answer["id"], answer["error"]["code"]) == (None, code)
    raw.open(URI, slip(design))
    assert "name/unknown-name" in codes(raw.diagnostics(URI))


def test_headers_may_be_spelt_and_split_as_they_like(raw):
    frame = raw.frame({"id": 7, "method": "initialize", "params": {"capabilities": {}}})
    frame = frame.replace(b"Content-Length", b"content-type: application/vscode-jsonrpc\r\nCONTENT-length")
    for start in range(0, len(frame), 11):
        raw.write(frame[start : start + 11])
    assert raw.receive()["id"] == 7


def test_unknown_requests_are_refused_and_unknown_notifications_ignored(raw):
    raw.greet()
    raw.notify("$/somethingNew", {})
    raw.notify("workspace/somethingNew", {})
    assert raw.request("workspace/somethingNew", {})["error"]["code"] == -32601


def test_nothing_works_before_the_greeting(raw, design):
    raw.open(URI, slip(design))
    place = {"textDocument": {"uri": URI}, "position": {"line": 0, "character": 0}}
    assert raw.request("textDocument/hover", place)["error"]["code"] == -32002
    assert raw.answers_next("initialize", {"processId": None, "capabilities": {}})


def test_a_burst_of_edits_ends_with_the_newest_text(raw, design):
    raw.greet()
    raw.open(URI, design)
    raw.diagnostics(URI)
    line, column = position(design, "caliber\n    inner")
    frames, version = [], 1
    # Type and take back "x" many times, then leave it standing: the name is unknown in every odd version alone.
    for version in range(2, 203):
        if version % 2 == 0:
            frames.append(raw.change_frame(URI, version, (line, column), (line, column), "x"))
        else:
            frames.append(raw.change_frame(URI, version, (line, column), (line, column + 1), ""))
    frames = frames[:-1] if version % 2 else frames
    raw.write(b"".join(frames))
    last, seen = 1 + len(frames), []
    while not seen or seen[-1]["version"] != last:
        seen.append(raw.diagnostics(URI))
    versions = [params["version"] for params in seen]
    assert versions == sorted(set(versions))
    assert len(versions) < len(frames) / 2
    for params in seen:
        assert ("name/unknown-name" in codes(params)) == (params["version"] % 2 == 0)
    # The answer is made from the newest result, and an older one would have come before it.
    place = {"textDocument": {"uri": URI}, "position": {"line": line, "character": column}}
    assert raw.answers_next("textDocument/hover", place)


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_line_ends_are_the_three_that_editors_know(raw, design, end):
    raw.greet()
    text = slip(design)
    raw.open(URI, text.replace("\n", end))
    found = [one for one in raw.diagnostics(URI)["diagnostics"] if one.get("code") == "name/unknown-name"]
    line, column = position(text, "calber")
    assert found[0]["range"] == {
        "start": {"line": line, "character": column},
        "end": {"line": line, "character": column + len("calber")},
    }


@pytest.mark.parametrize("encodings, chosen", [(None, "utf-16"), (["utf-16"], "utf-16"), (["utf-16", "utf-8"], "utf-8")])
def test_columns_after_an_emoji(raw, design, encodings, chosen):
    general = {"general": {"positionEncodings": encodings}} if encodings else {}
    assert raw.greet(general)["capabilities"]["positionEncoding"] == chosen
    old = "diameter: 24 mm; length: 70 mm"
    assert old in design
    text = design.replace(old, 'code: "D9-5 😀é"; diameter: calber')
    raw.open(URI, text)
    found = [one for one in raw.diagnostics(URI)["diagnostics"] if one.get("code") == "name/unknown-name"]
    line, column = position(text, "calber", chosen)
    assert found[0]["range"]["start"] == {"line": line, "character": column}
    assert found[0]["range"]["end"] == {"line": line, "character": column + 6}


def test_positions_that_do_not_exist_do_no_harm(raw, design):
    raw.greet()
    raw.open(URI, "# 😀\n" + design)
    # Into the surrogate pair, beyond the line, beyond the file, backwards.
    places = [((2, 7), (2, 1)), ((0, 3), (0, 3)), ((0, 99), (0, 2**31 - 1)), ((2**31 - 1, 0), (2**31 - 1, 9)), ((3, 5), (1, 0))]
    for version, (start, end) in enumerate(places, start=2):
        raw.change(URI, version, start, end, "# ")
        raw.diagnostics(URI, version)
    for line, character in [(0, 3), (0, 10**9), (10**9, 0)]:
        place = {"line": line, "character": character}
        document = {"uri": URI}
        hover = raw.request("textDocument/hover", {"textDocument": document, "position": place})
        assert "error" not in hover
        params = {"textDocument": document, "range": {"start": place, "end": place}, "context": {"diagnostics": []}}
        assert "error" not in raw.request("textDocument/codeAction", params)


def test_closing_empties_the_list(raw, design):
    raw.greet()
    raw.open(URI, slip(design))
    assert raw.diagnostics(URI)["diagnostics"]
    raw.notify("textDocument/didClose", {"textDocument": {"uri": URI}})
    assert raw.diagnostics(URI)["diagnostics"] == []


def test_a_file_above_a_megabyte_is_not_read(raw):
    raw.greet()
    raw.open(URI, "# a very long remark\n" * 50_001)
    found = raw.diagnostics(URI)["diagnostics"]
    assert len(found) == 1 and "larger than 1 MB" in found[0]["message"]


def test_shutdown_and_exit_end_with_success_while_input_stays_open(raw):
    raw.greet()
    answer = raw.request("shutdown")
    assert "error" not in answer and answer["result"] is None
    raw.notify("exit")
    assert raw.process.wait(5) == 0


def test_exit_alone_ends_with_failure_while_input_stays_open(raw):
    raw.greet()
    raw.notify("exit")
    assert raw.process.wait(5) == 1


@pytest.mark.parametrize("properly", [True, False])
def test_the_end_of_the_input_ends_the_server(raw, properly):
    raw.greet()
    if properly:
        raw.request("shutdown")
    raw.process.stdin.close()
    assert raw.process.wait(5) == (0 if properly else 1)


def test_requests_after_shutdown_are_refused(raw):
    raw.greet()
    raw.request("shutdown")
    place = {"textDocument": {"uri": URI}, "position": {"line": 0, "character": 0}}
    assert raw.request("textDocument/hover", place)["error"]["code"] == -32600


def test_the_server_ends_when_the_process_that_started_it_is_gone():
    with subprocess.Popen(["sleep", "60"]) as parent, Raw(program()) as client:
        client.request("initialize", {"processId": parent.pid, "capabilities": {}})
        client.notify("initialized", {})
        assert client.process.poll() is None
        parent.kill()
        parent.wait()
        assert client.process.wait(10) == 1


def test_the_server_ends_when_nobody_reads_what_it_says(design):
    command = subprocess.Popen(program(), stdin=subprocess.PIPE, stdout=subprocess.PIPE)
    body = json.dumps({"jsonrpc": "2.0", "id": 1, "method": "initialize", "params": {"processId": None, "capabilities": {}}})
    command.stdin.write(f"Content-Length: {len(body)}\r\n\r\n{body}".encode())
    command.stdin.flush()
    assert command.stdout.readline().startswith(b"Content-Length")
    command.stdout.close()
    # It notices with the next thing that it has to say.
    with contextlib.suppress(BrokenPipeError):
        for _ in range(3):
            command.stdin.write(f"Content-Length: {len(body)}\r\n\r\n{body}".encode())
            command.stdin.flush()
    assert command.wait(10) == 1


def test_long_work_is_called_off(raw, tmp_path, design):
    for number in range(300):
        (tmp_path / f"{number}.finw").write_text(design)
    raw.greet(workspaceFolders=[{"uri": tmp_path.as_uri(), "name": "designs"}])
    raw.last_id += 1
    command = {"command": "finwright.checkWorkspace", "arguments": [], "workDoneToken": "work"}
    raw.write(raw.frame({"id": raw.last_id, "method": "workspace/executeCommand", "params": command}))
    kinds = []
    while not kinds or kinds[-1] != "begin":
        message = raw.receive()
        if message.get("method") == "$/progress":
            kinds.append(message["params"]["value"]["kind"])
    raw.notify("$/cancelRequest", {"id": raw.last_id})
    while (message := raw.receive()).get("id") != raw.last_id:
        pass
    assert message["error"]["code"] == -32800


def test_files_of_several_folders_and_of_one_that_joins(raw, tmp_path, design):
    one, two = tmp_path / "one", tmp_path / "two"
    for folder in (one, two):
        folder.mkdir()
    (two / "kit.finw").write_text("let width = 3 mm\n")
    text = 'use "../two/kit.finw"\nlet twice = 2 * width\n'
    raw.greet(workspaceFolders=[{"uri": one.as_uri(), "name": "one"}])
    uri = (one / "design.finw").as_uri()
    raw.open(uri, text)
    assert "file/unreadable-file" in codes(raw.diagnostics(uri))
    event = {"added": [{"uri": two.as_uri(), "name": "two"}], "removed": []}
    raw.notify("workspace/didChangeWorkspaceFolders", {"event": event})
    assert "file/unreadable-file" not in codes(raw.diagnostics(uri))
