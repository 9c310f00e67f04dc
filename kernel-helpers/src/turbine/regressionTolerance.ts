import { published } from "../formula/source";

/** How far off a turbine regression must be expected to be, in mortality. */
export const regressionTolerance = {
  mortality: 0.1,
  source: published(
    "Tomanova et al. 2023, Knowl. Manag. Aquat. Ecosyst. 424:6: root mean square error 0.10 to 0.11 over 73 field tests " +
      "with salmonids in Francis turbines; taken as a magnitude for the other regressions",
  ),
} as const;

/** The caution that every regression shows. */
export const toleranceCaution =
  `an honest tolerance for a turbine regression is about ${regressionTolerance.mortality.toFixed(2)} in mortality ` +
  "(Tomanova et al. 2023: 73 field tests of salmonids in Francis turbines, taken as a magnitude).";
