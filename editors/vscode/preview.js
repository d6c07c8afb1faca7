// The live page of a design beside its text. The server serves it and says where; the cursor marks its part there.

const { commands, Uri, ViewColumn, window } = require("vscode");

const BESIDE = { viewColumn: ViewColumn.Beside, preserveFocus: true };

function preview(client) {
  const name = (document) => client.code2ProtocolConverter.asUri(document.uri);
  const open = commands.registerTextEditorCommand("finwright.openPreview", async ({ document }) => {
    const asked = { command: "finwright.preview", arguments: [name(document)] };
    const url = await client.sendRequest("workspace/executeCommand", asked);
    if (url) await commands.executeCommand("simpleBrowser.api.open", Uri.parse(url), BESIDE);
  });
  const follow = window.onDidChangeTextEditorSelection(({ textEditor, selections }) => {
    if (textEditor.document.languageId !== "finwright") return;
    const { line, character } = selections[0].active;
    client.sendNotification("finwright/cursor", {
      textDocument: { uri: name(textEditor.document) },
      position: { line, character },
    });
  });
  return [open, follow];
}

module.exports = { preview };
