// Starts the finwright language server and leaves nearly everything to it.

const fs = require("fs");
const path = require("path");
const { commands, window, workspace, languages, Uri, ViewColumn } = require("vscode");
const { LanguageClient } = require("vscode-languageclient/node");
const { preview } = require("./preview.js");
const beginning = require("./beginning");

let client;

// The user's own command, the server that came along, or whatever the PATH finds.
function server(context) {
  const chosen = workspace.getConfiguration("finwright").get("command");
  if (chosen?.length) return chosen;
  const name = process.platform === "win32" ? "finwright.exe" : "finwright";
  const bundled = path.join(context.extensionPath, "server", name);
  return [fs.existsSync(bundled) ? bundled : "finwright", "lsp"];
}

async function start(context) {
  const [command, ...args] = server(context);
  client = new LanguageClient(
    "finwright",
    "finwright",
    { command, args },
    {
      documentSelector: [{ language: "finwright" }, { pattern: "**/finwright.toml" }],
      initializationOptions: {
        ...workspace.getConfiguration("finwright"),
        pictures: true,
        // After a field is chosen the list of its words opens by itself.
        suggestCommand: "editor.action.triggerSuggest",
      },
    },
  );
  context.subscriptions.push(...preview(client));
  await client.start();
}

async function newDesign() {
  const document = await workspace.openTextDocument({ language: "finwright", content: beginning });
  await window.showTextDocument(document);
}

async function checkAll() {
  const rows = await client.sendRequest("workspace/executeCommand", { command: "finwright.checkWorkspace", arguments: [] });
  const shown = rows.map((row) => {
    const name = row.uri ? workspace.asRelativePath(Uri.parse(row.uri)) : "a design";
    const counted = (number, word) => `${number} ${word}${number === 1 ? "" : "s"}`;
    return `${name}: ${row.verdict} (${counted(row.errors, "error")}, ${counted(row.warnings, "warning")})`;
  });
  const text = shown.length ? shown.join("\n") : "There is no design in the workspace.";
  const document = await workspace.openTextDocument({ language: "plaintext", content: text + "\n" });
  await window.showTextDocument(document, { viewColumn: ViewColumn.Beside, preview: true });
}

async function explainRule() {
  const editor = window.activeTextEditor;
  const found = editor ? languages.getDiagnostics(editor.document.uri) : [];
  const rules = [...new Set(found.map((one) => String(one.code?.value ?? one.code ?? "")))].filter((rule) => rule.includes("/"));
  const rule = await window.showQuickPick(rules, { placeHolder: "which rule" });
  if (!rule) return;
  const page = await client.sendRequest("workspace/executeCommand", { command: "finwright.explain", arguments: [rule] });
  const document = await workspace.openTextDocument({ language: "markdown", content: page });
  await window.showTextDocument(document, { viewColumn: ViewColumn.Beside, preview: true });
}

async function activate(context) {
  context.subscriptions.push(
    commands.registerCommand("finwright.newDesign", newDesign),
    commands.registerCommand("finwright.checkAll", checkAll),
    commands.registerCommand("finwright.explainRule", explainRule),
    commands.registerCommand("finwright.restart", () => client.restart()),
  );
  try {
    await start(context);
  } catch (error) {
    window.showErrorMessage(`The finwright server didn't start: ${error.message}. Say where it is in the setting finwright.command.`);
  }
}

function deactivate() {
  return client?.stop();
}

module.exports = { activate, deactivate };
