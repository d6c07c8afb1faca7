// Writes annotations by GitHub's own toolkit: a JSON list of [level, message, properties] comes in, lines go out.
import * as core from "@actions/core";
import { readFileSync } from "node:fs";

const write = { error: core.error, warning: core.warning, note: core.notice };
for (const [level, message, properties] of JSON.parse(readFileSync(0, "utf8"))) write[level](message, properties);
