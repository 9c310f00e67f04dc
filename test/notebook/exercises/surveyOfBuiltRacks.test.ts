import { describe, expect, test } from "vitest";
import { exercise } from "../../../kernel-helpers/src/notebook/exercise";
import { u } from "../../../kernel-helpers/src/quantity";
import { collectOutputs } from "../emitted";

describe("exercises of notebook 02", () => {
  const outputs = collectOutputs();
  const verdict = (): string => outputs.last("text/plain");

  test("02.1 counts whole answers, and none where the rate is met", () => {
    exercise("02.1", { asked: 90, answered: 60, wantedRate: 0.8 }, 12);
    expect(verdict()).toContain("✓");
    exercise("02.1", { asked: 90, answered: 60, wantedRate: 0.8 }, 48);
    expect(verdict()).toContain("Hint");
    exercise("02.1", { asked: 90, answered: 81, wantedRate: 0.9 }, 0);
    expect(verdict()).toContain("✓");
    exercise("02.1", { asked: 91, answered: 60, wantedRate: 0.8 }, 13);
    expect(verdict()).toContain("✓");
  });

  test("02.2 takes only plants that said both, and meets a limit exactly", () => {
    const limits = { spacingAtMost: u.mm(15), angleAtMost: u.deg(45) };
    const plants = [
      { clearSpacing: u.cm(1.5), rackAngle: u.deg(45) },
      { clearSpacing: u.mm(20), rackAngle: u.deg(30) },
      { clearSpacing: u.mm(10), rackAngle: u.deg(50) },
      { clearSpacing: u.mm(10) },
      { rackAngle: u.deg(30) },
    ];
    exercise("02.2", { plants, ...limits }, 1 / 3);
    expect(verdict()).toContain("✓");
    exercise("02.2", { plants, ...limits }, 1 / 5);
    expect(verdict()).toContain("Hint");
    exercise("02.2", { plants, ...limits, spacingAtMost: u.mm(20) }, 2 / 3);
    expect(verdict()).toContain("✓");
  });

  test("02.3 scales a discharge with the power 2.5 and spots a slip of the unit", () => {
    const inputs = { bypassDischarge: u.m3ps(0.32), lengthScale: 4 };
    exercise("02.3", inputs, u.Lps(10));
    expect(verdict()).toContain("right, 10 L/s");
    exercise("02.3", inputs, u.m3ps(10));
    expect(verdict()).toContain("1000 times");
    exercise("02.3", inputs, u.Lps(20));
    expect(verdict()).toContain("Hint");
  });

  test("02.4 turns the Reynolds number round and follows the viscosity", () => {
    const inputs = {
      approachVelocity: u.mps(0.5),
      lengthScale: 4,
      leastBarReynolds: 1500,
      kinematicViscosity: u.m2ps(1.3e-6),
    };
    exercise("02.4", inputs, u.mm(31.2));
    expect(verdict()).toContain("right, 31.2 mm");
    exercise("02.4", inputs, u.mm(3.9));
    expect(verdict()).toContain("Hint");
    exercise("02.4", { ...inputs, kinematicViscosity: u.m2ps(1e-6) }, u.mm(24));
    expect(verdict()).toContain("✓");
  });
});
