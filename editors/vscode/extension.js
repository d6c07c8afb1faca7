// Starts the finwright language server and leaves everything else to it.

const { workspace } = require("vscode");
const { LanguageClient } = require("vscode-languageclient/node");

let client;

function activate() {
  const [command, ...args] = workspace.getConfiguration("finwright").get("command");
  client = new LanguageClient(
    "finwright",
    { command, args },
    { documentSelector: [{ language: "finwright" }] },
  );
  return client.start();
}

function deactivate() {
  return client?.stop();
}

module.exports = { activate, deactivate };
