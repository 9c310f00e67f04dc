import { existsSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, test } from "vitest";
import type ts from "typescript";
import { remedies } from "../../kernel-helpers/src/quantity/dimension";

const root = fileURLToPath(new URL("../..", import.meta.url));
const load = createRequire(import.meta.url);

/** The compilers that meet a cell: the kernel's own, not strict, and an editor's current one, both ways. */
const compilers = [
  { name: "the kernel's TypeScript", module: "@tslab/typescript-for-tslab", strict: false },
  { name: "the current TypeScript", module: "typescript", strict: false },
  { name: "the current TypeScript, strict", module: "typescript", strict: true },
];

describe.each(compilers)("$name", ({ module, strict }) => {
  // A boundary: both packages have the shape of the typescript module.
  const compiler = load(module) as typeof ts;
  const parsed = new Map<string, ts.SourceFile | undefined>();

  /** Compiles a cell as the kernel does, beside the notebooks, without writing it anywhere. */
  function errorsOf(code: string): string {
    const cell = join(root, "notebooks", "__cell.ts");
    const options: ts.CompilerOptions = {
      noEmit: true,
      module: compiler.ModuleKind.CommonJS,
      moduleResolution: compiler.ModuleResolutionKind.Node10,
      target: compiler.ScriptTarget.ES2022,
      skipLibCheck: true,
      strict,
      types: [],
    };
    const host = compiler.createCompilerHost(options);
    const text = `import { fish, format, rack, rackLoss, show, u } from "kernel-helpers";\nimport type * as k from "kernel-helpers";\n${code}\n`;
    const program = compiler.createProgram([cell], options, {
      ...host,
      fileExists: (path) => path === cell || host.fileExists(path),
      getSourceFile: (path, language) => {
        if (path === cell) return compiler.createSourceFile(path, text, language);
        // Declaration files don't change between cells: parse them once.
        if (!parsed.has(path)) parsed.set(path, host.getSourceFile(path, language));
        return parsed.get(path);
      },
    });
    return compiler
      .getPreEmitDiagnostics(program)
      .map((one) => compiler.flattenDiagnosticMessageText(one.messageText, "\n"))
      .join("\n");
  }

  beforeAll(() => {
    if (!existsSync(join(root, "kernel-helpers/dist/index.d.ts"))) {
      throw new Error("kernel-helpers/dist is missing; run npm run build first.");
    }
  });

  test("takes quantities where they belong", () => {
    const code = `
      const bar: k.Length = u.mm(8);
      const long: k.Length = rack.length({ channelWidth: u.m(17), rackAngle: u.deg(38) });
      const share: number = rack.blockage({ barThickness: bar, clearSpacing: u.mm(18), supportShare: 0.05 });
      const twice = u.m(2 * long);
      format(twice, "cm");
      rackLoss.kirschmer({ shapeFactor: rackLoss.shapeFactors.roundRod, barThickness: bar, clearSpacing: u.cm(1.8),
        inclination: u.rad(1.2), approachVelocity: u.cmps(56) });
      show("bar", bar, "mm"); show("share", share, "%", 2); show("ratio", share); show("ratio", share, undefined, 2);
      show("half", u.m(bar / 2), "mm");
      rack.froudeScale({ lengthScale: 4 * share }).force;`;
    expect(errorsOf(code)).toBe("");
  });

  const lengthRemedy = remedies.length;

  test.each([
    [
      "an angle for a length",
      `rack.length({ channelWidth: u.deg(17), rackAngle: u.deg(38) });`,
      lengthRemedy,
    ],
    ["a bare number for a length", `rack.length({ channelWidth: 17, rackAngle: u.deg(38) });`, lengthRemedy],
    ["a bare number for an angle", `rack.length({ channelWidth: u.m(17), rackAngle: 38 });`, remedies.angle],
    [
      "the bare sum of two lengths",
      `rack.length({ channelWidth: u.m(8) + u.m(9), rackAngle: u.deg(38) });`,
      lengthRemedy,
    ],
    [
      "a length for a plain share",
      `rack.blockage({ barThickness: u.mm(8), clearSpacing: u.mm(18), supportShare: u.mm(1) });`,
      "a plain number without unit",
    ],
    ["a length for a discharge", `const flow: k.Discharge = u.m(3);`, remedies.discharge],
    ["a length read in degrees", `u.to.deg(u.m(3));`, remedies.angle],
    ["a length printed in degrees", `format(u.m(3), "deg");`, remedies.angle],
    ["a quantity in a constructor", `u.mm(u.deg(3));`, "a plain number without unit"],
    ["an input that is missing", `rack.length({ channelWidth: u.m(17) });`, "rackAngle"],
    [
      "an input that doesn't exist",
      `rack.length({ channelWidth: u.m(17), rackAngle: u.deg(38), width: u.m(1) });`,
      "'width' does not exist",
    ],
    ["a unit that doesn't exist", `u.inch(3);`, "'inch' does not exist"],
    ["text for a number", `u.mm("18");`, "string"],
  ])("refuses %s and names the remedy", (_, code, remedy) => {
    expect(errorsOf(code)).toContain(remedy);
  });

  test.each([
    [
      "the bare half of a length",
      `show("half", u.mm(18) / 2, "mm");`,
      `arithmetic gives a plain number in SI units; make it a quantity again, ${lengthRemedy}`,
    ],
    ["a length in degrees", `show("a", u.mm(18), "deg");`, `deg is a unit of ${remedies.angle}`],
    ["a unit that doesn't exist", `show("a", u.mm(18), "ft");`, `'"ft"' is not assignable`],
    ["a quantity without its unit", `show("a", u.mm(18));`, "a quantity is shown in a unit of its own"],
    ["a quantity in per cent", `show("a", u.mm(18), "%");`, "a quantity is shown in a unit of its own"],
  ])("show refuses %s in one message", (_, code, message) => {
    expect(errorsOf(code)).toContain(message);
    expect(errorsOf(code).split("\n")).toHaveLength(1);
  });

  test.each(Object.entries(remedies))(
    "names the remedy where a %s is wanted and a bare number given",
    (dimension, remedy) => {
      expect(errorsOf(`const q: k.Quantity<"${dimension}"> = 1 as number;`)).toContain(remedy);
    },
  );
});
