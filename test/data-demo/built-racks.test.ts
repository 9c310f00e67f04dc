import { describe, expect, it } from "vitest";
import {
  builtChoices,
  builtRacks,
  builtRacksTruth as truth,
  plantedSlips,
} from "../../data-demo/generators/built-racks";
import { demoRows, demoText } from "./files";
import { deviation, mean } from "./numbers";

const rows = demoRows("built-racks.csv");
const questions = Object.keys(rows[0]).slice(2);
const answered = rows.filter((row) => row.answered !== "");
const built = new Map(builtRacks().map((rack) => [rack.plantId, rack]));
const slips = plantedSlips();

describe("built-racks.csv", () => {
  it("has ninety plants asked, sixty that answered, and nothing in the rows of the others", () => {
    expect(rows).toHaveLength(90);
    expect(answered).toHaveLength(60);
    for (const row of rows.filter((one) => one.answered === "")) {
      expect(questions.filter((question) => row[question] !== "")).toEqual([]);
    }
  });

  it("asks for every column in the blank questionnaire, in its order", () => {
    const asked = [...demoText("built-racks-questionnaire.md").matchAll(/\[`(\w+)`\]/g)].map(
      ([, name]) => name,
    );
    expect(asked).toEqual(questions);
  });

  it("leaves about as many answers empty as stated", () => {
    const open = answered.flatMap((row) =>
      questions.filter((question) => question !== "bypassDischarge").map((question) => row[question]),
    );
    const empty = open.filter((cell) => cell === "").length / open.length;
    const error = Math.sqrt((truth.missingShare * (1 - truth.missingShare)) / open.length);
    expect(Math.abs(empty - truth.missingShare)).toBeLessThan(3.5 * error);
  });

  it.each([
    ["designDischarge", /m3\/s$/, / l\/s$/],
    ["clearSpacing", / mm$/, / cm$/],
    ["bypassDischarge", / m3\/s$/, / % of Q$/],
    ["rackAngle", / deg$/, / deg to the normal$/],
    ["cleaningTrigger", / cm$/, /^by the clock$/],
  ])("mixes the units of %s", (question, usual, other) => {
    const cells = answered.map((row) => row[question]).filter((cell) => cell !== "");
    expect(cells.filter((cell) => usual.test(cell)).length).toBeGreaterThan(cells.length / 2);
    expect(cells.filter((cell) => other.test(cell)).length).toBeGreaterThan(0);
  });

  it("writes in every unit the spacing that was built, slips of the pen apart", () => {
    const wrong = answered.filter(({ plantId, clearSpacing }) => {
      if (clearSpacing === "") return false;
      const [, number, unit] = /^(?:about )?([\d.]+)(?: (\w+))?$/.exec(clearSpacing) ?? [];
      const millimetres = Number(number) * ({ cm: 10, m: 1000 }[unit] ?? 1);
      return Math.abs(millimetres - (built.get(plantId)?.clearSpacing ?? 0)) > 1e-9;
    });
    expect(wrong.map(({ plantId }) => plantId)).toEqual(
      slips.filter(({ question }) => question === "clearSpacing").map(({ plantId }) => plantId),
    );
  });

  it("holds the planted slips", () => {
    for (const { plantId, question, cell } of slips) {
      expect(answered.find((row) => row.plantId === plantId)?.[question]).toBe(cell);
    }
  });
});

describe("the plants behind the answers", () => {
  const many = builtRacks({ ...truth, asked: 4000 });

  it.each([
    ["designDischarge", truth.medianDischarge, truth.dischargeSpread],
    ["head", truth.medianHead, truth.headSpread],
    ["channelDepth", truth.medianDepth, truth.depthSpread],
  ] as const)("have %s by the stated median and spread", (fact, median, spread) => {
    const logs = many.map((rack) => Math.log(rack[fact]));
    // Values are rounded to a tenth, which blurs the smallest.
    expect(Math.abs(mean(logs) - Math.log(median))).toBeLessThan(
      (4 * spread) / Math.sqrt(many.length) + 0.003,
    );
    expect(Math.abs(deviation(logs) - spread)).toBeLessThan(
      (4 * spread) / Math.sqrt(2 * many.length) + 0.005,
    );
  });

  it("have spacings by the stated shares", () => {
    for (const [spacing, share] of Object.entries(builtChoices.clearSpacing)) {
      const found = many.filter(({ clearSpacing }) => clearSpacing === Number(spacing)).length / many.length;
      expect(Math.abs(found - share)).toBeLessThan(4 * Math.sqrt((share * (1 - share)) / many.length));
    }
  });

  it("have approach velocities by the stated median", () => {
    const logs = many
      .filter(({ designDischarge }) => designDischarge > 5)
      .map((rack) => Math.log(rack.designDischarge / (rack.channelWidth * rack.channelDepth)));
    expect(Math.abs(mean(logs) - Math.log(truth.medianVelocity))).toBeLessThan(0.02);
  });
});

describe("the shares of what was built", () => {
  it.each(Object.entries(builtChoices))("of %s add up to 1", (_, shares) => {
    expect(Object.values<number>(shares).reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12);
  });
});
