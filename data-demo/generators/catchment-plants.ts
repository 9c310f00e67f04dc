import { csvText } from "./csv";
import { turbineUnits } from "./turbine";
import { type Draws, seededDraws } from "./random";

/** The true parameters of `catchment-plants.csv`. */
export interface CatchmentTruth {
  readonly seed: number;
  readonly plants: number;
  /** Shares of the types of runner; the others are Francis runners. */
  readonly kaplanShare: number;
  readonly propellerShare: number;
  readonly medianAxialDischarge: number;
  readonly medianFrancisDischarge: number;
  readonly dischargeSpread: number;
  readonly medianAxialHead: number;
  readonly medianFrancisHead: number;
  readonly headSpread: number;
}

export const catchmentTruth: CatchmentTruth = {
  seed: 1600,
  plants: 240,
  kaplanShare: 0.55,
  propellerShare: 0.15,
  medianAxialDischarge: 12,
  medianFrancisDischarge: 3,
  dischargeSpread: 0.7,
  medianAxialHead: 4.5,
  medianFrancisHead: 12,
  headSpread: 0.35,
};

/** Racks that stand there, in mm, and their shares. */
export const catchmentSpacings = { 15: 0.1, 20: 0.25, 30: 0.25, 40: 0.2, 60: 0.15, 100: 0.05 } as const;

/** A plant's row; units stand in the header. */
type Row = Readonly<Record<string, number | string>>;

const columns = [
  "plant",
  "type",
  "discharge [m3/s]",
  "bestDischarge [m3/s]",
  "head [m]",
  "rotationalSpeed [rpm]",
  "runnerDiameter [m]",
  "blades",
  "efficiency",
  "inletDiameter [m]",
  "outletDiameter [m]",
  "inletHeight [m]",
  "swirlFreeRatio",
  "clearSpacing [mm]",
  "spillFlowShare",
  "spillEffectiveness",
  "spillSurvival",
] as const;

const rounded = (value: number, decimals: number): number => Number(value.toFixed(decimals));

/** Speed of a generator on a 50 Hz grid, the nearest to a wanted one. */
const synchronous = (wanted: number): number => rounded(3000 / Math.max(2, Math.round(3000 / wanted)), 1);

const [halvern, , kelmar] = turbineUnits;

// Runners like those of turbine.csv, made larger or smaller: at one head, the discharge goes with the square of the
// diameter, and the speed with the root of the head over the diameter.
function runner(draws: Draws, truth: CatchmentTruth): Row {
  const place = draws.uniform();
  const francis = place >= truth.kaplanShare + truth.propellerShare;
  const like = francis ? kelmar : halvern;
  const discharge = rounded(
    draws.lognormal(
      francis ? truth.medianFrancisDischarge : truth.medianAxialDischarge,
      truth.dischargeSpread,
    ),
    2,
  );
  const head = rounded(
    draws.lognormal(francis ? truth.medianFrancisHead : truth.medianAxialHead, truth.headSpread),
    2,
  );
  const size = Math.sqrt(discharge / like.discharge / Math.sqrt(head / like.head));
  const speed = synchronous((like.rotationalSpeed * Math.sqrt(head / like.head)) / size);
  const scaled = (length: number | undefined) => (length === undefined ? "" : rounded(length * size, 3));
  return {
    type: francis ? "francis" : place < truth.kaplanShare ? "kaplan" : "propeller",
    "discharge [m3/s]": discharge,
    "bestDischarge [m3/s]": rounded((discharge * like.bestDischarge) / like.discharge, 2),
    "head [m]": head,
    "rotationalSpeed [rpm]": speed,
    "runnerDiameter [m]": scaled(like.runnerDiameter),
    blades: francis ? draws.integer(11, 15) : draws.integer(3, 5),
    efficiency: like.efficiency,
    "inletDiameter [m]": scaled(like.inletDiameter),
    "outletDiameter [m]": scaled(like.outletDiameter),
    "inletHeight [m]": scaled(like.inletHeight),
    swirlFreeRatio: like.swirlFreeRatio ?? "",
  };
}

/** Returns `catchment-plants.csv` as text, one row a plant. */
export function catchmentPlantsCsv(truth: CatchmentTruth = catchmentTruth): string {
  const draws = seededDraws(truth.seed);
  const spacings = Object.entries(catchmentSpacings);
  const digits = String(truth.plants).length;
  const rows = Array.from({ length: truth.plants }, (_, index): Row => ({
    plant: `C${String(index + 1).padStart(digits, "0")}`,
    ...runner(draws, truth),
    "clearSpacing [mm]": spacings[draws.categorical(spacings.map(([, share]) => share))][0],
    spillFlowShare: rounded(0.5 * draws.uniform(), 2),
    spillEffectiveness: 1,
    spillSurvival: 0.97,
  }));
  return csvText(
    columns,
    rows.map((row) => columns.map((name) => String(row[name]))),
  );
}
