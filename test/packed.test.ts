import { execFileSync, spawnSync } from "node:child_process";
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  realpathSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";

const root = fileURLToPath(new URL("..", import.meta.url));
const installing = 180_000;

let folder = "";
let archive = "";

function npm(inFolder: string, ...command: string[]): string {
  return execFileSync("npm", [...command, "--no-audit", "--no-fund", "--prefer-offline"], {
    cwd: inFolder,
    encoding: "utf8",
    // Settings of the npm that runs these tests belong to the repository, not to the reader's folder.
    env: Object.fromEntries(
      Object.entries(process.env).filter(([name]) => !/^npm_(?:config|package)_/i.test(name)),
    ),
  });
}

/** A folder with a package.json alone, and the packed module installed in it. */
function installIn(name: string, block: object): string {
  const project = join(folder, name);
  mkdirSync(project);
  writeFileSync(join(project, "package.json"), JSON.stringify({ private: true, ...block }));
  npm(project, "install", archive);
  return project;
}

function run(project: string, script: string): { readonly output: string; readonly complaints: string } {
  const file = join(project, "cell.js");
  writeFileSync(file, script);
  const { stdout, stderr } = spawnSync(process.execPath, [file], { cwd: project, encoding: "utf8" });
  return { output: stdout, complaints: stderr };
}

/** The block that README gives to those who want frames. */
function readmeBlock(): object {
  const readme = readFileSync(join(root, "README.md"), "utf8");
  const blocks = [...readme.matchAll(/```json\n(.*?)```/gs)].map(([, json]) => json);
  const block = blocks.find((json) => json.includes('"overrides"'));
  if (block === undefined) throw new Error("README.md has no JSON block with overrides");
  return JSON.parse(block) as object; // an object, as the block's braces say
}

const frameScript = `
  const { frame } = require("kernel-helpers");
  frame([{ species: "roach", length: 1 }, { species: "roach", length: 2 }, { species: "ide", length: 4 }])
    .then((table) => console.log(JSON.stringify(table.groupBy("species").aggregate({ length: ["mean"] }).rows)))
    .catch((error) => console.log(error.message));`;

beforeAll(() => {
  folder = realpathSync(mkdtempSync(join(tmpdir(), "packed-")));
  for (let above = dirname(folder); above !== dirname(above); above = dirname(above)) {
    const modules = join(above, "node_modules");
    if (existsSync(modules)) {
      throw new Error(
        `${modules} would lend its packages to the folder of this test; set TMPDIR to another place.`,
      );
    }
  }
  archive = join(
    folder,
    npm(join(root, "kernel-helpers"), "pack", "--silent", "--pack-destination", folder).trim(),
  );
}, installing);

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("the packed module in an empty folder", () => {
  let project = "";
  beforeAll(() => {
    project = installIn("without-frames", {});
  }, installing);

  test("brings neither danfojs-node nor the code that runs the notebooks", () => {
    const { resolve } = createRequire(join(project, "package.json"));
    expect(() => resolve("danfojs-node")).toThrow("Cannot find module");
    expect(existsSync(join(project, "node_modules/kernel-helpers/dist/index.js"))).toBe(true);
    expect(existsSync(join(project, "node_modules/kernel-helpers/dist/workshop"))).toBe(false);
  });

  test("evaluates formulas", () => {
    const { output, complaints } = run(
      project,
      `const { format, rack, u } = require("kernel-helpers");
       console.log(format(rack.length({ channelWidth: u.m(17), rackAngle: u.deg(38) }), "m"));`,
    );
    // 17 m / sin 38°
    expect(output).toBe("27.6 m\n");
    expect(complaints).toBe("");
  });

  test("loads none of the heavy packages before they are used", () => {
    const { output } = run(
      project,
      `require("kernel-helpers");
       const heavy = Object.keys(require.cache).filter((file) => /node_modules.(?:jsdom|plotly|read-excel|csv-parse)/.test(file));
       console.log(JSON.stringify(heavy));`,
    );
    expect(JSON.parse(output)).toEqual([]);
  });

  test("reads records", () => {
    writeFileSync(join(project, "flow.csv"), 'date,discharge [m3/s],note\n2020-01-01,34,"dry, cold"\n');
    const schema = {
      title: "flow",
      columns: {
        date: { kind: "day" },
        discharge: { kind: "quantity", unit: "m3ps" },
        note: { kind: "text" },
      },
    };
    const { output, complaints } = run(
      project,
      `require("kernel-helpers").readRecords("flow.csv", ${JSON.stringify(schema)})
         .then((records) => console.log(JSON.stringify(records.rows)));`,
    );
    expect(JSON.parse(output)).toEqual([{ date: "2020-01-01", discharge: 34, note: "dry, cold" }]);
    expect(complaints).toBe("");
  });

  test("says what frame needs", () => {
    const { output } = run(project, frameScript);
    expect(output).toMatch(
      /^frame, and with it groupBy, describe and join, needs danfojs-node, which is not installed;/,
    );
    expect(output).toContain("npm install danfojs-node@1.1.2 @tensorflow/tfjs@3.21.0");
    const { overrides } = readmeBlock() as { readonly overrides: unknown };
    const named = /"overrides": (\{.*\}) into your package\.json/.exec(output)?.[1] ?? "";
    expect(JSON.parse(named)).toEqual(overrides);
  });

  test("declares its types without those of danfojs-node, for the kernel's compiler and for a strict one", () => {
    writeFileSync(
      join(project, "cell.ts"),
      `import { frame, rack, u } from "kernel-helpers";
       const length = rack.length({ channelWidth: u.m(17), rackAngle: u.deg(38) });
       frame([{ species: "roach", length }]).then((table) => {
         const [row] = table.groupBy("species").aggregate({ length: ["mean", "count"] }).rows;
         const mean: number | undefined = row.meanLength && u.to.mm(row.meanLength);
         const count: number = row.countLength;
         // @ts-expect-error: no such figure was asked for
         row.maxLength;
         return [mean, count];
       });`,
    );
    for (const compiler of ["typescript", "@tslab/typescript-for-tslab"]) {
      const tsc = join(root, "node_modules", compiler, "bin/tsc");
      const options =
        "--noEmit --target es2022 --module commonjs --moduleResolution node --types node --strict --skipLibCheck";
      const typeRoots = join(root, "node_modules/@types");
      const ignored = compiler === "typescript" ? ["--ignoreDeprecations", "5.0"] : [];
      const { stdout } = spawnSync(
        process.execPath,
        [tsc, ...options.split(" "), ...ignored, "--typeRoots", typeRoots, "cell.ts"],
        { cwd: project, encoding: "utf8" },
      );
      expect(stdout, compiler).toBe("");
    }
  });
});

describe("the packed module with README's block", () => {
  test(
    "groups a frame, with one copy of tensorflow and nothing on standard error",
    () => {
      const project = installIn("with-frames", readmeBlock());
      const { output, complaints } = run(project, frameScript);
      expect(JSON.parse(output)).toEqual([
        { species: "roach", meanLength: 1.5 },
        { species: "ide", meanLength: 4 },
      ]);
      expect(complaints).toBe("");
      expect(existsSync(join(project, "node_modules/danfojs-node/node_modules/@tensorflow"))).toBe(false);
    },
    installing,
  );
});
