import { csvText } from "./csv";
import { halvernWeir as plant } from "./halvern-weir";

/** One point of a unit's efficiency curve: discharge in m³/s, efficiency of turbine and generator together. */
export interface EfficiencyPoint {
  readonly discharge: number;
  readonly efficiency: number;
}

/** The points of `efficiency.csv`: invented, flat as those of a Kaplan unit whose blades turn. */
export const efficiencyPoints: readonly EfficiencyPoint[] = [
  { discharge: 4, efficiency: 0.74 },
  { discharge: 5, efficiency: 0.8 },
  { discharge: 6, efficiency: 0.835 },
  { discharge: 8, efficiency: 0.872 },
  { discharge: 10, efficiency: 0.888 },
  { discharge: 12, efficiency: 0.897 },
  { discharge: plant.bestDischarge, efficiency: plant.efficiency },
  { discharge: 16, efficiency: 0.895 },
  { discharge: plant.dischargePerUnit, efficiency: 0.885 },
];

/** Returns `efficiency.csv` as text, one row a point. */
export function efficiencyCsv(points: readonly EfficiencyPoint[] = efficiencyPoints): string {
  return csvText(
    ["discharge [m3/s]", "efficiency"],
    points.map(({ discharge, efficiency }) => [String(discharge), String(efficiency)]),
  );
}
