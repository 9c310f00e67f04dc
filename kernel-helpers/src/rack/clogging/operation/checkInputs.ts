import { checkInputs, checkNumber } from "../../../formula/check";
import {
  area,
  count,
  discharge,
  length,
  mass,
  number,
  printValue,
  ratio,
  time,
} from "../../../formula/input";
import type { CloggingInputs, DebrisDay, Period, Sediment } from "./inputs";

const millisecondsADay = 86_400_000;

/** The number of a day written 2026-03-01; undefined where there is no such day. */
function dayNumber(date: unknown): number | undefined {
  if (typeof date !== "string" || !/^\d{4}-\d{2}-\d{2}$/.test(date)) return undefined;
  const at = Date.parse(`${date}T00:00:00Z`);
  // Some engines take 2026-02-30 for 2 March: the day must read the same on its way back.
  return Number.isNaN(at) || new Date(at).toISOString().slice(0, 10) !== date
    ? undefined
    : at / millisecondsADay;
}

const rackInputs = {
  rackArea: area("A", { above: 0 }),
  channelArea: area("A_0", { above: 0 }),
  clearSpacing: length("b", { above: 0, unit: "mm" }),
  cleanLossCoefficient: number("\\xi_0", { atLeast: 0 }),
} as const;
const lawInputs = {
  scale: number("C", { atLeast: 0 }),
  loadExponent: number("e", { above: 0 }),
  spacingExponent: number("n", {}),
} as const;
const cleaningInputs = {
  shortestInterval: time("t_0", { above: 0, unit: "h" }),
  reach: ratio("r", { above: 0 }),
  greatestLoss: length("\\Delta h_{max}", { above: 0 }),
} as const;
const sedimentInputs = {
  risePerDay: length("r", { atLeast: 0, unit: "mm" }),
  aboveFlow: discharge("Q_s", { atLeast: 0 }),
  overlayHeight: length("o", { atLeast: 0 }),
  rackHeight: length("H", { above: 0 }),
  clearedEvery: time("T", { above: 0, unit: "d" }),
} as const;
const flowInput = discharge("Q", { atLeast: 0 });
const massInput = mass("m", { atLeast: 0 });
const equivalentInput = number("\\lambda", { atLeast: 0, note: "kg of leaves that clog like 1 kg of it" });

/** Throws a RangeError that names what is wrong, where it stands and what is allowed. */
export function checkCloggingInputs(
  caller: string,
  { days, rack, cleaning, assumptions, stepsPerDay = 24 }: CloggingInputs,
): void {
  const { rackArea, channelArea, clearSpacing, cleanLossCoefficient, coefficients } = rack;
  checkInputs(`${caller}, rack`, rackInputs, { rackArea, channelArea, clearSpacing, cleanLossCoefficient });
  const { scale, loadExponent, spacingExponent } = coefficients;
  checkInputs(`${caller}, coefficients`, lawInputs, { scale, loadExponent, spacingExponent });
  const { shortestInterval, reach, greatestLoss, threshold, every, outOfOrder = [] } = cleaning;
  checkInputs(`${caller}, cleaning`, cleaningInputs, { shortestInterval, reach, greatestLoss });
  if (threshold !== undefined) checkNumber(caller, "threshold", threshold, length("", { above: 0 }));
  if (every !== undefined) checkNumber(caller, "every", every, time("", { above: 0, unit: "h" }));
  if (threshold !== undefined && threshold > greatestLoss) {
    throw new RangeError(
      `${caller}: threshold is ${printValue(threshold, "length")}; it must be at most greatestLoss, ` +
        `${printValue(greatestLoss, "length")}, or the turbines are held back before the machine starts.`,
    );
  }
  for (const period of outOfOrder) checkPeriod(caller, period);
  checkNumber(caller, "stickingShare", assumptions.stickingShare, ratio("", {}));
  for (const [type, value] of Object.entries(assumptions.leafEquivalents)) {
    checkNumber(caller, `leafEquivalents.${type}`, value, equivalentInput);
  }
  if (assumptions.sediment !== undefined) checkSediment(caller, assumptions.sediment);
  const { rackOut } = assumptions;
  if (rackOut !== undefined) {
    for (const day of [rackOut.from, rackOut.to]) {
      if (dayNumber(`2024-${day}`) === undefined) {
        throw new RangeError(
          `${caller}: rackOut has the day ${JSON.stringify(day)}; a day of the year reads 12-15.`,
        );
      }
    }
  }
  checkNumber(caller, "stepsPerDay", stepsPerDay, count("n", { atMost: 1440 }));
  checkDays(caller, days, Object.keys(assumptions.leafEquivalents));
}

function checkSediment(caller: string, sediment: Sediment): void {
  checkInputs(`${caller}, sediment`, sedimentInputs, { ...sediment });
  if (sediment.overlayHeight >= sediment.rackHeight) {
    throw new RangeError(
      `${caller}: overlayHeight is ${printValue(sediment.overlayHeight, "length")}; it must be below rackHeight, ` +
        `${printValue(sediment.rackHeight, "length")}.`,
    );
  }
}

function checkPeriod(caller: string, { from, to }: Period): void {
  const [first, last] = [dayNumber(from), dayNumber(to)];
  if (first === undefined || last === undefined || last < first) {
    throw new RangeError(
      `${caller}: outOfOrder has the period ${JSON.stringify(from)} to ${JSON.stringify(to)}; give two days such as ` +
        "2026-03-01, the earlier first.",
    );
  }
}

function checkDays(caller: string, days: readonly DebrisDay[], types: readonly string[]): void {
  if (days.length === 0) {
    throw new RangeError(
      `${caller}: there are no days; give a list of { date, riverFlow, turbineFlow, debris }.`,
    );
  }
  let before: number | undefined;
  for (const { date, riverFlow, turbineFlow, debris } of days) {
    const day = dayNumber(date);
    if (day === undefined) {
      throw new RangeError(
        `${caller}: a day has the date ${JSON.stringify(date) ?? "missing"}; a date reads 2026-03-01.`,
      );
    }
    if (before !== undefined && day !== before + 1) {
      throw new RangeError(
        `${caller}: ${date} does not follow the day before it in the list; sort the days, fill gaps and take out doubles.`,
      );
    }
    before = day;
    checkNumber(caller, `riverFlow of ${date}`, riverFlow, flowInput);
    checkNumber(caller, `turbineFlow of ${date}`, turbineFlow, flowInput);
    if (turbineFlow > riverFlow) {
      throw new RangeError(
        `${caller}: turbineFlow of ${date} is ${printValue(turbineFlow, "discharge")}; it must be at most riverFlow, ` +
          `${printValue(riverFlow, "discharge")}.`,
      );
    }
    for (const [type, value] of Object.entries(debris)) {
      if (!types.includes(type)) {
        throw new RangeError(
          `${caller}: the debris of ${date} has the type "${type}"; leafEquivalents knows ${types.join(", ") || "none"}. ` +
            "State how many kilograms of leaves clog like one of it, 0 for debris that does not stay.",
        );
      }
      checkNumber(caller, `${type} of ${date}`, value, massInput);
    }
  }
}
