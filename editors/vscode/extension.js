// Starts the finwright language server and leaves everything else to it.

const { workspace } = require("vscode");
const { LanguageClient } = require("vscode-languageclient/node");
const { preview } = require("./preview.js");

let client;

function activate(context) {
  const [command, ...args] = workspace.getConfiguration("finwright").get("command");
  client = new LanguageClient(
    "finwright",
    { command, args },
    { documentSelector: [{ language: "finwright" }], initializationOptions: { pictures: true } },
  );
  context.subscriptions.push(...preview(client));
  return client.start();
}

function deactivate() {
  return client?.stop();
}

module.exports = { activate, deactivate };
