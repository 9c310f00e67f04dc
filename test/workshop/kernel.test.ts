import { readdirSync, rmSync } from "node:fs";
import { setTimeout as sleep } from "node:timers/promises";
import { afterAll, beforeAll, describe, expect, test, vi } from "vitest";
import { Kernel } from "../../kernel-helpers/src/workshop/kernel";
import { joined, stderrText } from "../../kernel-helpers/src/workshop/outputs";
import { isRunning, temporaryFolder, until } from "./tinyNotebooks";

/** The kernel answers "abort" for 0.2 s after an error. */
const untilItRunsAgain = 300;

describe("a kernel", () => {
  let folder: string;
  let kernel: Kernel;

  beforeAll(async () => {
    folder = temporaryFolder();
    kernel = await Kernel.start(folder);
  });

  afterAll(async () => {
    await kernel.shutdown();
    rmSync(folder, { recursive: true });
  });

  const run = (code: string, timeoutSeconds = 20): ReturnType<Kernel["execute"]> =>
    kernel.execute(code, timeoutSeconds);

  test("gives the value of the last expression as printed text", async () => {
    const { status, outputs } = await run("const spacing = 18; spacing * 2");
    expect(status).toBe("ok");
    expect(outputs).toEqual([{ output_type: "stream", name: "stdout", text: ["36\n"] }]);
  });

  test("keeps what an earlier cell declared", async () => {
    await run("const depth: number = 3.6;");
    expect((await run("console.log(depth)")).outputs).toEqual([
      { output_type: "stream", name: "stdout", text: ["3.6\n"] },
    ]);
  });

  test("runs in the given folder", async () => {
    expect((await run("console.log(process.cwd())")).outputs).toEqual([
      { output_type: "stream", name: "stdout", text: [`${folder}\n`] },
    ]);
  });

  test("gives what a cell displays as display_data, without the transient display id", async () => {
    const { outputs } = await run(`import { display } from "tslab"; display.html("<b>a</b>\\n<i>b</i>");`);
    expect(outputs).toEqual([
      { output_type: "display_data", data: { "text/html": ["<b>a</b>\n", "<i>b</i>"] }, metadata: {} },
    ]);
  });

  test("replaces what was displayed when a later cell updates it", async () => {
    const { outputs } = await run(
      `import { newDisplay } from "tslab"; const shown = newDisplay(); shown.text("old");`,
    );
    await run(`shown.text("new");`);
    expect(outputs).toEqual([{ output_type: "display_data", data: { "text/plain": ["new"] }, metadata: {} }]);
  });

  test("keeps the order of stdout, stderr and displays, and joins pieces of one stream", async () => {
    const { outputs } = await run(
      `process.stdout.write("a"); process.stdout.write("b\\nc"); console.error("d"); display.text("e"); console.log("f");`,
    );
    expect(outputs.map((output) => ("text" in output ? joined(output.text) : "display"))).toEqual([
      "ab\nc",
      "d\n",
      "display",
      "f\n",
    ]);
  });

  test("takes thousands of lines from one cell without losing one", async () => {
    const { status, outputs } = await run("for (let line = 1; line <= 5000; line++) console.log(line);");
    expect(status).toBe("ok");
    expect(outputs).toHaveLength(1);
    const [output] = outputs;
    const printed = output !== undefined && "text" in output ? output.text : [];
    expect(printed).toHaveLength(5000);
    expect(printed.at(-1)).toBe("5000\n");
  });

  test("answers an error with status error and its text on stderr, and skips what follows at once", async () => {
    const failed = await run(`throw new RangeError("clearSpacing is -5 mm");`);
    const skipped = await run("1");
    expect(failed.status).toBe("error");
    expect(stderrText(failed.outputs)).toContain("RangeError: clearSpacing is -5 mm");
    expect(skipped).toMatchObject({ status: "abort", outputs: [] });
    await sleep(untilItRunsAgain);
    expect((await run("1")).status).toBe("ok");
  });

  test("tells an error by its sentence and the cell's own line, and nothing of modules", async () => {
    await run(`import { rack, u } from "kernel-helpers"; const lengthOf = (width: number) =>
      rack.length({ channelWidth: u.m(width), rackAngle: u.deg(38) });`);
    const { outputs } = await run("const depth2 = 3;\n\nconst wrong = lengthOf(-1);");
    expect(stderrText(outputs)).toBe(
      "RangeError: rack.length: channelWidth is -1 m; it must be above 0 m.\n    at the line: const wrong = lengthOf(-1);\n",
    );
    await sleep(untilItRunsAgain);
    const late = await run(`void Promise.reject(new RangeError("late")); await null;`);
    await until("the kernel tells of the rejection", () => stderrText(late.outputs) !== "");
    expect(stderrText(late.outputs)).toBe("UnhandledPromiseRejection: RangeError: late\n");
  });

  test("prints a topic, evaluated alone, as a list of its names", async () => {
    await run(`import { rack } from "kernel-helpers";`);
    const printed = (await run("rack")).outputs.map((output) =>
      "text" in output ? joined(output.text) : "",
    );
    expect(printed.join("")).toMatch(/^A module with .*length.*\n.*Tab lists these/);
  });

  test("reports a wrong type before the cell runs", async () => {
    const { status, outputs } = await run(`console.log("ran"); const wrong: string = 3;`);
    expect(status).toBe("error");
    expect(outputs).toEqual([
      {
        output_type: "stream",
        name: "stderr",
        text: ["1:27 - Type 'number' is not assignable to type 'string'.\n"],
      },
    ]);
    await sleep(untilItRunsAgain);
  });

  test("interrupts a loop that never ends, and works on", async () => {
    const { status, interrupted } = await run("while (true) {}", 0.5);
    expect({ status, interrupted }).toEqual({ status: "error", interrupted: "time" });
    await sleep(untilItRunsAgain);
    expect((await run("1")).status).toBe("ok");
  });

  test("interrupts a promise that never settles, and works on", async () => {
    const { status, interrupted } = await run("await new Promise(() => {});", 0.5);
    expect({ status, interrupted }).toEqual({ status: "error", interrupted: "time" });
    await sleep(untilItRunsAgain);
    expect((await run("1")).status).toBe("ok");
  });

  test("shows the documentation of a name", async () => {
    const code =
      "/** Head loss in metres. */ function headLoss(velocity: number) { return velocity; }\nheadLoss";
    const text = await kernel.inspect(code, code.length - 2);
    expect(text).toContain("function headLoss(velocity: number): number");
    expect(text).toContain("Head loss in metres.");
    expect(await kernel.inspect("const a = 1;", 11)).toBeUndefined();
  });

  test("completes a name", async () => {
    const code = "const plant = { ratedFlow: 34, grossHead: 5.4 };\nplant.gr";
    const { start, end, matches } = await kernel.complete(code, code.length);
    expect(code.slice(start, end)).toBe("gr");
    expect(matches).toContain("grossHead");
  });
});

describe("the process of a kernel", () => {
  let folder: string;

  beforeAll(() => {
    folder = temporaryFolder();
  });

  afterAll(() => rmSync(folder, { recursive: true }));

  test("is gone after shutdown, together with what its cells started, and leaves no file", async () => {
    const temporary = temporaryFolder();
    vi.stubEnv("TMPDIR", temporary);
    const kernel = await Kernel.start(folder);
    vi.unstubAllEnvs();
    expect(readdirSync(temporary)).toEqual([]);
    const { outputs } = await kernel.execute(
      `import { spawn } from "node:child_process";
       const child = spawn(process.execPath, ["-e", "setInterval(() => {}, 1000)"]);
       console.log(child.pid);`,
      20,
    );
    const [output] = outputs;
    const childId = Number(output !== undefined && "text" in output ? joined(output.text) : "");
    expect([isRunning(kernel.processId), isRunning(childId)]).toEqual([true, true]);
    await kernel.shutdown();
    expect(isRunning(kernel.processId)).toBe(false);
    await until("the child of the kernel has ended", () => !isRunning(childId));
    rmSync(temporary, { recursive: true });
  });

  test("is ended when a cell does not stop at an interrupt, and the cell says so", async () => {
    const kernel = await Kernel.start(folder);
    // After an await, nothing listens to the interrupt.
    const run = await kernel.execute("await Promise.resolve(); while (true) {}", 0.3);
    expect(run).toMatchObject({
      status: "ended",
      interrupted: "time",
      ending: "The kernel was ended by SIGKILL.",
    });
    expect(isRunning(kernel.processId)).toBe(false);
    expect(await kernel.execute("1", 1)).toMatchObject({ status: "ended" });
  });

  test("that a cell ends answers the cell with how it ended", async () => {
    const kernel = await Kernel.start(folder);
    expect(await kernel.execute("process.exit(3)", 20)).toMatchObject({
      status: "ended",
      interrupted: undefined,
      ending: "The kernel ended with exit code 3.",
    });
    await kernel.shutdown();
  });

  test("that prints without end is interrupted", async () => {
    const kernel = await Kernel.start(folder);
    const run = await kernel.execute(`for (;;) console.log("x".repeat(100_000));`, 30);
    expect(run.interrupted).toBe("output");
    await kernel.shutdown();
    expect(isRunning(kernel.processId)).toBe(false);
  });

  test("that cannot start says why", async () => {
    await expect(Kernel.start("/no/such/folder")).rejects.toThrow(
      /The kernel could not be started: .*ENOENT/,
    );
  });
});
