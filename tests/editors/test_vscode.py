"""The extension for Visual Studio Code: its files fit together, and its code does what they promise."""

import json
import pathlib
import re
import shutil
import subprocess
import sys

import pytest

HOME = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(HOME / "tests"))
import built  # noqa: E402

FOLDER = pathlib.Path(__file__).resolve().parents[2] / "editors" / "vscode"


def read(name):
    return json.loads((FOLDER / name).read_text())


def test_what_the_manifest_names_is_there():
    package = read("package.json")
    contributed = package["contributes"]
    (language,) = contributed["languages"]
    (grammar,) = contributed["grammars"]
    # What is bundled comes of what is there.
    main = package["main"].replace("dist/", "")
    snippets = [one["path"] for one in contributed["snippets"]]
    for name in (main, language["configuration"], grammar["path"], *snippets):
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


def started(tmp_path, command, bundled, then=""):
    """What the extension tells the client's library, with stand-ins for the editor's two modules."""
    for name in ("vscode", "vscode-languageclient"):
        (tmp_path / "node_modules" / name).mkdir(parents=True)
    (tmp_path / "node_modules" / "vscode" / "index.js").write_text(
        f"const settings = {{ diagnostics: 'open', get: (key) => key === 'command' ? {json.dumps(command)} : null }};\n"
        "exports.workspace = { getConfiguration: () => settings };\n"
        "exports.ViewColumn = { Beside: -2 };\nexports.Uri = { parse: (url) => url };\n"
        "exports.window = { onDidChangeTextEditorSelection: (then) => { exports.moved = then; return {}; } };\n"
        "exports.commands = {\n"
        "  registerCommand: (name) => console.log(JSON.stringify(name)),\n"
        "  registerTextEditorCommand: (name, then) => { exports.open = then; console.log(JSON.stringify(name)); },\n"
        "  executeCommand: (...told) => console.log(JSON.stringify(told)),\n"
        "};\n"
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
    for name in ("extension.js", "beginning.js", "preview.js"):
        shutil.copy(FOLDER / name, tmp_path)
    if bundled:
        (tmp_path / "server").mkdir()
        (tmp_path / "server" / "finwright").touch()
    script = "const it = require('./extension.js'); const context = { subscriptions: [], extensionPath: '.' };"
    script += "it.activate(context).then(async () => {" + then + " it.deactivate(); });"
    done = subprocess.run(["node", "-e", script], cwd=tmp_path, capture_output=True, text=True, timeout=60)
    assert done.returncode == 0, done.stderr
    return [json.loads(line) for line in done.stdout.splitlines()]


@pytest.mark.skipif(not shutil.which("node"), reason="there is no Node.js here")
@pytest.mark.parametrize(
    "command, bundled, program",
    [(["/bin/other", "lsp"], True, "/bin/other"), (None, True, "server/finwright"), (None, False, "finwright")],
)
def test_the_extension_starts_the_server_that_is_meant(tmp_path, command, bundled, program):
    *commands, client, stopped = started(tmp_path, command, bundled)
    assert sorted(commands) == sorted(one["command"] for one in read("package.json")["contributes"]["commands"])
    assert client[2] == {"command": program, "args": ["lsp"]}
    assert client[3]["documentSelector"] == [{"language": "finwright"}, {"pattern": "**/finwright.toml"}]
    assert client[3]["initializationOptions"]["diagnostics"] == "open"
    assert stopped == "stopped"


@pytest.mark.skipif(not shutil.which("node"), reason="there is no Node.js here")
def test_the_live_page_opens_beside_and_is_told_where_the_cursor_is(tmp_path):
    then = (
        "const vscode = require('vscode'), document = { uri: 'file:///a.finw', languageId: 'finwright' };"
        "vscode.moved({ textEditor: { document }, selections: [{ active: { line: 3, character: 4 } }] });"
        "vscode.moved({ textEditor: { document: { languageId: 'toml' } }, selections: [] });"
        "await vscode.open({ document });"
    )
    *_, moved, asked, beside, stopped = started(tmp_path, None, False, then)
    where = {"textDocument": {"uri": "file:///a.finw"}, "position": {"line": 3, "character": 4}}
    assert moved == ["finwright/cursor", where]
    assert asked == ["workspace/executeCommand", {"command": "finwright.preview", "arguments": ["file:///a.finw"]}]
    assert beside[:2] == ["simpleBrowser.api.open", "http://page"] and stopped == "stopped"


@pytest.mark.skipif(not shutil.which("node"), reason="there is no Node.js here")
def test_the_design_to_start_from_meets_the_checks(tmp_path):
    text = subprocess.run(["node", "-p", f"require({json.dumps(str(FOLDER / 'beginning.js'))})"], capture_output=True, text=True, timeout=60).stdout
    path = tmp_path / "design.finw"
    path.write_text(text)
    done = subprocess.run([built.finwright(), "check", "--format", "line", path], capture_output=True, text=True, timeout=60)
    assert done.stdout.strip().endswith("meets the checks"), done.stdout


@pytest.mark.parametrize("name", read("snippets/finwright.json"))
def test_snippets_are_of_the_language(name, tmp_path):
    """With something at each stop they can be read."""
    body = "\n".join(read("snippets/finwright.json")[name]["body"])
    text = re.sub(r"\$\{\d+\|([^,|]+)[^}]*\}", r"\1", body)
    text = re.sub(r"\$\{\d+:([^}]*)\}", r"\1", text).replace("$0", "")
    text = re.sub(r"\$\d+", "thing", text)
    path = tmp_path / "design.finw"
    path.write_text(text + "\n")
    done = subprocess.run([built.finwright(), "check", "--format", "line", path], capture_output=True, text=True, timeout=60)
    assert "syntax/" not in done.stdout, done.stdout


def test_the_walkthrough_leads_to_pages_that_are_there():
    (walkthrough,) = read("package.json")["contributes"]["walkthroughs"]
    for step in walkthrough["steps"]:
        assert (FOLDER / step["media"]["markdown"]).is_file(), step["id"]
