import { spawn, spawnSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { keyResults } from "../../kernel-helpers/src/workshop/keyResults";
import { codeCells, readNotebook } from "../../kernel-helpers/src/workshop/notebookFile";
import { repositoryRoot } from "../../kernel-helpers/src/workshop/notebookNames";
import { joined } from "../../kernel-helpers/src/workshop/outputs";
import { readOrder } from "../../kernel-helpers/src/workshop/start";
import { isRunning, notebookFile, temporaryFolder, until } from "./tinyNotebooks";

// The command as `npm start` starts it, compiled; only the folder of the notebooks is another.
const command = join(repositoryRoot, "kernel-helpers", "dist", "workshop", "start.js");
const runIn = `
  const { readOrder, start } = require(${JSON.stringify(command)});
  const stop = new AbortController();
  process.once("SIGINT", () => stop.abort(new Error("stopped")));
  start(readOrder(process.argv.slice(2)), stop.signal, process.argv[1]).then((code) => (process.exitCode = code), (error) => {
    console.error(error.message);
    process.exitCode = 130;
  });`;

let root: string;
const page = (name: string): string => readFileSync(join(root, "build", "course", name), "utf8");
const start = (...words: string[]) =>
  spawnSync(process.execPath, ["-e", runIn, root, ...words], { encoding: "utf8", cwd: repositoryRoot });

beforeAll(() => {
  root = temporaryFolder();
  mkdirSync(join(root, "notebooks"));
});
beforeEach(() => {
  rmSync(join(root, "notebooks"), { recursive: true });
  rmSync(join(root, "build"), { recursive: true, force: true });
  mkdirSync(join(root, "notebooks"));
});
afterAll(() => rmSync(root, { recursive: true }));

const write = (name: string, ...sources: string[]): string =>
  notebookFile(join(root, "notebooks"), name, sources);

describe("npm start", () => {
  test("runs the notebooks, writes their pages with fresh outputs and prints the key results with their cautions", () => {
    write("00-first", "console.log(20 + 22)");
    write("scratch", "console.log(1)");
    const { status, stdout, stderr } = start("--once");
    expect(stderr).toBe("");
    expect(status).toBe(0);
    expect(stdout).toContain("00-first: 1 cells in");
    expect(stdout).toContain("1 notebook run, 0 unchanged");
    expect(stdout).toMatch(/Rack length +27\.6 m/);
    expect(stdout).toContain("For study and pre-design.");
    expect(page("00-first.html")).toContain('<pre class="printed">42</pre>');
    expect(existsSync(join(root, "build", "course", "scratch.html"))).toBe(false);
  });

  test("runs again only what has changed: code, not text", () => {
    write("00-first", "console.log(1)");
    write("01-second", "console.log(2)");
    start("--once");
    expect(start("--once").stdout).toContain("0 notebooks run, 2 unchanged");
    write("01-second", "console.log(3)");
    expect(start("--once").stdout).toContain("1 notebook run, 1 unchanged");
    expect(page("01-second.html")).toContain('<pre class="printed">3</pre>');
    const first = join(root, "notebooks", "00-first.ipynb");
    const withText = JSON.parse(readFileSync(first, "utf8")) as { cells: object[] };
    withText.cells.unshift({ cell_type: "markdown", id: "top", metadata: {}, source: "# Renamed" });
    writeFileSync(first, JSON.stringify(withText));
    expect(start("--once").stdout).toContain("0 notebooks run, 2 unchanged");
    expect(page("00-first.html")).toContain("Renamed");
  });

  test("writes the page of a notebook that fails, with the failure on it, and exits with 1 naming notebook, cell and message", () => {
    write("00-good", "console.log(1)");
    write("01-bad", "console.log(2)", 'throw new Error("the spacing is -5 mm")', "console.log(3)");
    const { status, stderr } = start("--once");
    expect(status).toBe(1);
    expect(stderr).toMatch(/Failed: .*01-bad, cell 2: .*the spacing is -5 mm/);
    expect(page("01-bad.html")).toContain("The last run of this notebook failed.");
    expect(page("01-bad.html")).toContain("the spacing is -5 mm");
    expect(page("index.html")).toContain("failed in the last run");
    // A failure is never taken from the cache.
    expect(start("--once").status).toBe(1);
  });

  test("tells a file that is no notebook from one that is, and still writes the others", () => {
    write("00-good", "console.log(1)");
    writeFileSync(join(root, "notebooks", "01-broken.ipynb"), "{ not JSON");
    const { status, stderr } = start("--once");
    expect(status).toBe(1);
    expect(stderr).toContain("is not JSON");
    expect(page("00-good.html")).toContain('<pre class="printed">1</pre>');
    expect(page("01-broken.html")).toContain("is not JSON");
  });

  test("serves the pages until Ctrl-C, and then ends", async () => {
    write("00-first", "console.log(1)");
    const child = spawn(process.execPath, ["-e", runIn, root, "--port", "0"], { cwd: repositoryRoot });
    let out = "";
    child.stdout.setEncoding("utf8").on("data", (text: string) => (out += text));
    await until("the course is served", () => /Ctrl-C stops/.test(out));
    const [address = ""] = /http:\/\/127\.0\.0\.1:\d+\//.exec(out) ?? [];
    expect(await (await fetch(`${address}00-first.html`)).text()).toContain('<pre class="printed">1</pre>');
    const ended = new Promise<number | null>((resolve) => child.once("exit", resolve));
    child.kill("SIGINT");
    expect(await ended).toBe(0);
    expect(out).toContain("Stopped.");
    await expect(fetch(address)).rejects.toThrow("fetch failed");
  });

  test("stopped while a cell runs, it leaves no kernel behind", async () => {
    const mark = join(root, "kernel-id");
    write(
      "00-long",
      `require("fs").writeFileSync(${JSON.stringify(mark)}, String(process.pid)); for (;;) {}`,
    );
    const child = spawn(process.execPath, ["-e", runIn, root, "--once"], { cwd: repositoryRoot });
    const ended = new Promise<number | null>((resolve) => child.once("exit", resolve));
    await until("the cell runs", () => existsSync(mark) && readFileSync(mark, "utf8") !== "");
    child.kill("SIGINT");
    expect(await ended).toBe(130);
    expect(isRunning(Number(readFileSync(mark, "utf8")))).toBe(false);
  });
});

describe("the command line of npm start", () => {
  test("means the usual port, or another", () => {
    expect(readOrder([])).toEqual({ once: false, port: 8640 });
    expect(readOrder(["--once", "--port", "9000"])).toEqual({ once: true, port: 9000 });
  });

  test.each(["-1", "65536", "80.5", "http", ""])("refuses the port %j with what is allowed", (port) => {
    expect(() => readOrder([`--port=${port}`])).toThrow(
      `--port is "${port}"; it must be a whole number from 0`,
    );
  });

  test("refuses words that mean nothing", () => {
    expect(() => readOrder(["--twice"])).toThrow(/--twice/);
  });
});

// ξ = A (O/(1−O))^1.65 sin² 38° + 1.79 (Os/(1−Os))^0.77, O = 8/26, Os = 0.05, times U²/2g; in mm
const loss = (coefficient: number): number =>
  (coefficient * (8 / 18) ** 1.65 * Math.sin((38 * Math.PI) / 180) ** 2 + 1.79 * (0.05 / 0.95) ** 0.77) *
  ((34 / (17 * 3.6)) ** 2 / (2 * 9.81)) *
  1000;

describe("the key results", () => {
  test("agree with the plant's numbers worked out by hand", async () => {
    const { plant, results } = await keyResults();
    const valueOf = (what: string): string[] =>
      results.filter((one) => one.what === what).map(({ value }) => value);
    expect(plant).toBe("Halvern Weir");
    // 34/(17·3.6); 17/sin 38°; 0.5556 sin 38°; 27.61/(0.5556 cos 38°)
    expect(valueOf("Approach velocity")).toEqual(["0.556 m/s"]);
    expect(valueOf("Rack length")).toEqual(["27.6 m"]);
    expect(valueOf("Velocity square to the rack")).toEqual(["0.342 m/s"]);
    expect(valueOf("Sweep time along the rack")).toEqual(["63.1 s"]);
  });

  test("give head loss as a range over bar shapes, by hand", async () => {
    const { results } = await keyResults();
    const { value } = results.find(({ what }) => what === "Head loss, clean rack") ?? { value: "" };
    expect(value).toBe(`${loss(2.1).toFixed(1)} to ${loss(3.85).toFixed(1)} mm`);
  });

  test("give the equations of the same physics beside it, by hand, so that no range is taken for the uncertainty", async () => {
    const { results } = await keyResults();
    const own = results.find(({ what }) => what === "Head loss, clean rack");
    expect(own?.basis).toContain("one approximate equation");
    const head = (34 / (17 * 3.6)) ** 2 / (2 * 9.81);
    const blockage = 1 - (18 / 26) * 0.95;
    // Kirschmer for a round nose that tapers, and streamwise rectangular bars: the lowest and the highest of the three.
    const tapered = 1.035 * (8 / 18) ** (4 / 3) * head;
    const streamwise = 2.89 * (blockage / (1 - blockage)) ** 1.6 * head;
    const other = results.find(({ what }) => what === "Head loss, same physics");
    expect(other?.value).toBe(`${(1000 * tapered).toFixed(1)} to ${(1000 * streamwise).toFixed(1)} mm`);
  });

  test("give the lowest total survival that notebook 12 has stored", async () => {
    const { results } = await keyResults();
    const [first] = results.filter(({ what }) => what === "Lowest total survival");
    const stored = codeCells(
      readNotebook(join(repositoryRoot, "notebooks", "12-survival-by-size-class.ipynb")),
    )
      .flatMap(({ outputs }) => outputs)
      .map((output) => ("data" in output ? joined(output.data["text/plain"]) : ""))
      .find((plain) => plain.startsWith("Local minima of total survival: grayling, 18 mm"));
    const [, length, survival] = /\n +(\d+) +[\d.]+ +([\d.]+)/.exec(stored ?? "") ?? [];
    expect(first?.value).toBe(`${survival} % at ${length} mm`);
  });

  test("carry the cautions of everything they rest on, and the standing one last", async () => {
    const { cautions } = await keyResults();
    expect(cautions.join("\n")).toMatch(/sweep.*63\.1 s.*60 s/);
    expect(cautions.join("\n")).toContain("approximate");
    expect(cautions.join("\n")).toContain("illustrative");
    expect(cautions.at(-1)).toContain("local codes, permits and licensed practice decide");
  });
});
