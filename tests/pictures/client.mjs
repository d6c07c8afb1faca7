// A small editor: speaks to the language server over its standard input and output.

import { spawn } from "node:child_process";

export const FINWRIGHT = process.env.FINWRIGHT ?? "finwright";

export class Editor {
  constructor() {
    this.process = spawn(FINWRIGHT, ["lsp"], { stdio: ["pipe", "pipe", "ignore"] });
    this.waiting = new Map();
    this.asked = [];
    this.next = 1;
    this.rest = Buffer.alloc(0);
    this.process.stdout.on("data", (bytes) => this.take(bytes));
  }

  take(bytes) {
    this.rest = Buffer.concat([this.rest, bytes]);
    for (;;) {
      const end = this.rest.indexOf("\r\n\r\n");
      if (end < 0) return;
      const length = Number(/Content-Length: (\d+)/i.exec(this.rest.subarray(0, end).toString())[1]);
      if (this.rest.length < end + 4 + length) return;
      const message = JSON.parse(this.rest.subarray(end + 4, end + 4 + length).toString());
      this.rest = this.rest.subarray(end + 4 + length);
      if (message.method && message.id !== undefined) {
        this.asked.push(message);
        this.send({ id: message.id, result: { success: true } });
      } else if (message.id !== undefined) {
        this.waiting.get(message.id)?.(message);
      }
    }
  }

  send(message) {
    const text = JSON.stringify({ jsonrpc: "2.0", ...message });
    this.process.stdin.write(`Content-Length: ${Buffer.byteLength(text)}\r\n\r\n${text}`);
  }

  request(method, params) {
    const id = this.next++;
    const answer = new Promise((resolve) => this.waiting.set(id, resolve));
    this.send({ id, method, params });
    return answer.then((message) => {
      if (message.error) throw new Error(JSON.stringify(message.error));
      return message.result;
    });
  }

  async start(initializationOptions) {
    const capabilities = {
      window: { showDocument: { support: true } },
      textDocument: { hover: { contentFormat: ["markdown"] } },
    };
    await this.request("initialize", { processId: null, rootUri: null, capabilities, initializationOptions });
    this.send({ method: "initialized", params: {} });
  }

  open(uri, text) {
    this.version = 1;
    this.send({ method: "textDocument/didOpen", params: { textDocument: { uri, languageId: "finwright", version: 1, text } } });
  }

  change(uri, text) {
    this.version += 1;
    const textDocument = { uri, version: this.version };
    this.send({ method: "textDocument/didChange", params: { textDocument, contentChanges: [{ text }] } });
  }

  async stop() {
    await this.request("shutdown");
    this.send({ method: "exit" });
    await new Promise((resolve) => this.process.once("exit", resolve));
  }
}
