import { trialFish } from "../../data-demo/generators/trial-runs";
import { heldByRack } from "../../kernel-helpers/src/protection";

/** The fish of the demo trial that met the rack, each with its run. */
export const demoTrial = heldByRack({
  fish: trialFish().map((fish) => ({ ...fish, cluster: fish.runId })),
});
