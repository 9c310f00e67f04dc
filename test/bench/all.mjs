// Every bench of this folder, one after the other, each in a process of its own. Run with `npm run bench`.
import { spawnSync } from "node:child_process";
import { readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";

const folder = fileURLToPath(new URL(".", import.meta.url));
const benches = readdirSync(folder).filter((name) => name.endsWith(".mjs") && name !== "all.mjs");
for (const name of benches.toSorted()) {
  console.log(`\n${name.replace(".mjs", "")}`);
  const { status } = spawnSync(process.execPath, [`${folder}${name}`], { stdio: "inherit" });
  if (status !== 0) process.exitCode = 1;
}
