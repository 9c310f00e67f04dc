import { createHash } from "node:crypto";
import { writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { recordSets } from "./generators/record-sets";

// Compiled, this file is build/data-demo/generate.js; the records live beside the README.
const directory = resolve(__dirname, "..", "..", "data-demo");

for (const { file, text } of recordSets) {
  const content = text();
  writeFileSync(join(directory, file), content, "utf8");
  const rows = content.split("\n").length - 2;
  const digest = createHash("sha256").update(content, "utf8").digest("hex");
  console.log(`${file.padEnd(24)} ${String(rows).padStart(6)} rows  sha256 ${digest}`);
}
