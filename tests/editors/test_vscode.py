"""The extension for Visual Studio Code: its files fit together, and its code does what they promise."""

import json
import pathlib
import re
import shutil
import subprocess

import pytest

FOLDER = pathlib.Path(__file__).resolve().parents[2] / "editors" / "vscode"


def read(name):
    return json.loads((FOLDER / name).read_text())


def test_what_the_manifest_names_is_there():
    package = read("package.json")
    contributed = package["contributes"]
    (language,) = contributed["languages"]
    (grammar,) = contributed["grammars"]
    for name in (package["main"], language["configuration"], grammar["path"]):
        assert (FOLDER / name).is_file(), name
    assert language["extensions"] == [".finw"]
    assert grammar["language"] == language["id"]
    assert read(grammar["path"])["scopeName"] == grammar["scopeName"]


@pytest.mark.parametrize(
    "line, expected",
    [
        ("tube body {", {"tube": "entity.name.type", "body": "entity.name.function"}),
        ('design "A b" {', {"design": "entity.name.type"}),
        ("length: 430 mm ± 1 %", {"length": "variable.parameter", "430": "constant.numeric", "mm": "keyword.other.unit"}),
        ("# outer: 3 mm", {"# outer: 3 mm": "comment.line.number-sign"}),
        ("let x = 3 m/s", {"let": "keyword.control", "3": "constant.numeric", "m/s": "keyword.other.unit"}),
    ],
)
def test_colours_follow_the_shape_of_the_text(line, expected):
    """The patterns keep to what Python's expressions have in common with the editor's."""
    for words, scope in expected.items():
        assert scope_at(line, line.index(words)) == f"{scope}.finwright", words


def scope_at(line, wanted):
    at = 0
    while at < len(line):
        found = [(match.start(), number, match, rule) for number, rule in enumerate(rules()) if (match := search(rule, line, at))]
        if not found:
            return None
        _, _, match, rule = min(found, key=lambda one: one[:2])
        for group, scope in rule.get("captures", {}).items():
            if match.start(int(group)) <= wanted < match.end(int(group)):
                return scope["name"]
        if match.start() <= wanted < match.end():
            return rule.get("name")
        at = max(match.end(), at + 1)
    return None


def rules():
    return read("syntaxes/finwright.tmLanguage.json")["patterns"]


def search(rule, line, at):
    return re.compile(rule.get("match") or rule["begin"]).search(line, at)


@pytest.mark.skipif(not shutil.which("node"), reason="there is no Node.js here")
def test_the_extension_starts_the_server_that_the_setting_names(tmp_path):
    for name in ("vscode", "vscode-languageclient"):
        (tmp_path / "node_modules" / name).mkdir(parents=True)
    (tmp_path / "node_modules" / "vscode" / "index.js").write_text(
        "exports.workspace = { getConfiguration: (section) => ({ get: (key) => ['/bin/' + section, key] }) };\n"
        "exports.ViewColumn = { Beside: -2 };\nexports.Uri = { parse: (url) => url };\n"
        "exports.window = { onDidChangeTextEditorSelection: (then) => { exports.moved = then; return {}; } };\n"
        "exports.commands = {\n"
        "  registerTextEditorCommand: (name, then) => { exports.named = name; exports.open = then; return {}; },\n"
        "  executeCommand: (...told) => console.log(JSON.stringify(told)),\n"
        "};"
    )
    (tmp_path / "node_modules" / "vscode-languageclient" / "node.js").write_text(
        "exports.LanguageClient = class {\n"
        "  constructor(...told) { this.told = told; }\n"
        "  start() { console.log(JSON.stringify(this.told)); }\n"
        "  stop() { console.log(JSON.stringify('stopped')); }\n"
        "  code2ProtocolConverter = { asUri: (uri) => uri };\n"
        "  async sendRequest(...told) { console.log(JSON.stringify(told)); return 'http://page'; }\n"
        "  sendNotification(...told) { console.log(JSON.stringify(told)); }\n"
        "};"
    )
    for name in ("extension.js", "preview.js"):
        shutil.copy(FOLDER / name, tmp_path)
    script = (
        "const it = require('./extension.js'), vscode = require('vscode');\n"
        "const document = { uri: 'file:///a.finw', languageId: 'finwright' };\n"
        "it.activate({ subscriptions: [] });\n"
        "vscode.moved({ textEditor: { document }, selections: [{ active: { line: 3, character: 4 } }] });\n"
        "vscode.moved({ textEditor: { document: { languageId: 'toml' } }, selections: [] });\n"
        "vscode.open({ document }).then(() => { console.log(JSON.stringify(vscode.named)); it.deactivate(); });"
    )
    done = subprocess.run(["node", "-e", script], cwd=tmp_path, capture_output=True, text=True, timeout=60)
    assert done.returncode == 0, done.stderr
    started, moved, asked, beside, named, stopped = map(json.loads, done.stdout.splitlines())
    where = {"textDocument": {"uri": "file:///a.finw"}, "position": {"line": 3, "character": 4}}
    assert moved == ["finwright/cursor", where]
    assert asked == ["workspace/executeCommand", {"command": "finwright.preview", "arguments": ["file:///a.finw"]}]
    assert beside[:2] == ["simpleBrowser.api.open", "http://page"]
    assert named in [command["command"] for command in read("package.json")["contributes"]["commands"]]
    (language,) = read("package.json")["contributes"]["languages"]
    assert started[1:] == [
        {"command": "/bin/finwright", "args": ["command"]},
        {"documentSelector": [{"language": language["id"]}], "initializationOptions": {"pictures": True}},
    ]
    assert stopped == "stopped"
