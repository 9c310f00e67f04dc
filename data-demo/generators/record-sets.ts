import { builtRacksCsv } from "./built-racks";
import { cloggingTrialsCsv } from "./clogging-trials";
import { catchmentPlantsCsv } from "./catchment-plants";
import { dailyFlowCsv } from "./daily-flow";
import { debrisCsv } from "./debris";
import { efficiencyCsv } from "./efficiency";
import { fishLengthsCsv } from "./fish-lengths";
import { fishMeasurementsCsv } from "./fish-measurements";
import { fishTracksCsv } from "./fish-tracks";
import { migrationTimingCsv } from "./migration-timing";
import { monitoringCatchesCsv } from "./monitoring-catches";
import { plantCsv } from "./plant";
import { rackLossFlumeCsv } from "./rack-loss-flume";
import { riverPlantsCsv } from "./river-plants";
import { speciesCsv } from "./species";
import { trialRunsCsv } from "./trial-runs";
import { turbineCsv } from "./turbine";
import { probeRecordsCsv, velocityPointsCsv } from "./velocity-points";

/** Every record file of the demo plant, with the function that returns its text. */
export const recordSets: readonly { readonly file: string; readonly text: () => string }[] = [
  { file: "daily-flow.csv", text: () => dailyFlowCsv() },
  { file: "plant.csv", text: () => plantCsv() },
  { file: "turbine.csv", text: () => turbineCsv() },
  { file: "species.csv", text: () => speciesCsv() },
  { file: "fish-lengths.csv", text: () => fishLengthsCsv() },
  { file: "fish-measurements.csv", text: () => fishMeasurementsCsv() },
  { file: "trial-runs.csv", text: () => trialRunsCsv() },
  { file: "rack-loss-flume.csv", text: () => rackLossFlumeCsv() },
  { file: "monitoring-catches.csv", text: () => monitoringCatchesCsv() },
  { file: "fish-tracks.csv", text: () => fishTracksCsv() },
  { file: "built-racks.csv", text: () => builtRacksCsv() },
  { file: "velocity-points.csv", text: () => velocityPointsCsv() },
  { file: "probe-records.csv", text: () => probeRecordsCsv() },
  { file: "migration-timing.csv", text: () => migrationTimingCsv() },
  { file: "efficiency.csv", text: () => efficiencyCsv() },
  { file: "debris.csv", text: () => debrisCsv() },
  { file: "clogging-trials.csv", text: () => cloggingTrialsCsv() },
  { file: "river-plants.csv", text: () => riverPlantsCsv() },
  { file: "catchment-plants.csv", text: () => catchmentPlantsCsv() },
];
