import { execFileSync, spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, describe, expect, test } from "vitest";
import { requireOnCI } from "../../browser/requireOnCI";
import { hasSlurm, startSlurm } from "./oneNodeSlurm";

const path = (name: string): string => fileURLToPath(new URL(`../../../${name}`, import.meta.url));
const submit = path("kernel-helpers/cluster/submit");
const [head, ...demo] = readFileSync(path("data-demo/catchment-plants.csv"), "utf8").trimEnd().split("\n");
const folder = mkdtempSync(join(tmpdir(), "screening-array-"));
writeFileSync(join(folder, "plants.csv"), `${[head, ...demo.slice(0, 30)].join("\n")}\n`);
const words = ["plants.csv", "--draws", "50", "--classes", "10", "--plants-in-part", "4"];
const { INIT_CWD: _, ...outside } = process.env;
afterAll(() => rmSync(folder, { recursive: true }));

test("submit explains itself where the number of shares is missing", () => {
  const { status, stderr } = spawnSync(submit, ["plants.csv", "--draws", "50"], {
    cwd: folder,
    encoding: "utf8",
  });
  expect(status).toBe(2);
  expect(stderr).toContain("Usage: kernel-helpers/cluster/submit SHARES PLANTS.csv");
});

describe.skipIf(!requireOnCI("Slurm (packages slurm-wlm and munge, and root)", hasSlurm))(
  "an array job",
  () => {
    test("makes its shares task by task, joins them, and gives the bytes of one machine", async () => {
      const program = path("kernel-helpers/dist/workshop/screen.js");
      execFileSync(process.execPath, [program, ...words, "--out", "machine.csv"], {
        cwd: folder,
        env: outside,
      });
      const slurm = await startSlurm(2);
      try {
        const told = execFileSync(submit, ["4", ...words, "--out", "array.csv"], {
          cwd: folder,
          env: { ...slurm.env, INIT_CWD: folder },
          encoding: "utf8",
        });
        expect(told).toMatch(/Array job \d+ makes 4 shares; job \d+ joins them/);
        await slurm.idle();
      } finally {
        await slurm.stop();
      }
      const logs = readdirSync(folder).filter((name) => name.endsWith(".log"));
      expect(logs.filter((name) => /-[1-4]\.log$/.test(name))).toHaveLength(4);
      const joined = logs
        .filter((name) => name.endsWith("-join.log"))
        .map((name) => readFileSync(join(folder, name), "utf8"));
      expect(joined.join("")).toContain("30 plants screened");
      expect(readFileSync(join(folder, "array.csv"), "utf8")).toBe(
        readFileSync(join(folder, "machine.csv"), "utf8"),
      );
      expect(existsSync(join(folder, "array.csv.parts"))).toBe(false);
    }, 200_000);
  },
);
