import type { Length } from "../../quantity/dimension";
import { format, formatNumber, percent } from "../../quantity/format";
import { u } from "../../quantity/u";
import type { SizeClass } from "../sizeClass";
import { equalSurvivals } from "./scan";

/**
 * Says why total survival has no local minimum over the scanned lengths.
 *
 * Each sentence states what was found among the scanned classes, in the order in which one rules out the next.
 */
export function reasonForNone(
  lengths: readonly number[],
  classes: readonly SizeClass[],
  barrierLength: Length,
): string {
  const first = classes[0];
  const last = classes[classes.length - 1];
  const shortest = format(u.m(lengths[0]), "mm");
  const longest = format(u.m(lengths[lengths.length - 1]), "mm");
  const barrier = format(barrierLength, "mm");
  if (classes.every((one) => one.protection >= 1 - equalSurvivals)) {
    return `every length from ${shortest} on is fully protected (the barrier length is ${barrier}), so survival is protected survival throughout.`;
  }
  if (classes.every((one) => one.protection <= equalSurvivals)) {
    return `no length up to ${longest} is protected (the barrier length is ${barrier}), so survival is turbine survival throughout; scan longer fish.`;
  }
  const exposed = classes.filter((one) => one.protection < 1);
  if (!falls(exposed.map((one) => one.turbineSurvival))) {
    return "turbine survival does not fall with length among fish that reach the turbine, so nothing draws total survival down before protection lifts it.";
  }
  const gains = liftedClasses(classes).map((one) => one.protectedSurvival - one.turbineSurvival);
  if (gains.every((gain) => gain <= equalSurvivals)) {
    return `protected survival does not lie above turbine survival at any length that protection acts on below the barrier length, ${barrier}, so protection lifts nothing.`;
  }
  const totals = classes.map((one) => one.totalSurvival);
  if (!falls(totals)) {
    return first.protection > equalSurvivals
      ? `protection acts on the shortest fish already (${percent(first.protection)} at ${shortest}, relative width ${formatNumber(first.relativeWidth)}) and lifts survival faster than the turbine lowers it, so total survival only rises with length.`
      : `protection lifts survival faster than the turbine lowers it from ${shortest} on, so total survival only rises with length.`;
  }
  if (!rises(totals)) {
    return last.protection < 1
      ? `total survival still falls at ${longest}; the barrier length is ${barrier}: scan longer fish.`
      : `total survival falls with length and never rises again up to ${longest}, although the barrier length is ${barrier}.`;
  }
  return "total survival rises and then falls within the scanned lengths, so its lowest values lie at their ends.";
}

/** The classes that protection acts on, up to the first that is fully protected: beyond it the turbine has no say. */
function liftedClasses(classes: readonly SizeClass[]): readonly SizeClass[] {
  const blocked = classes.findIndex((one) => one.protection >= 1);
  const reached = blocked < 0 ? classes : classes.slice(0, blocked + 1);
  return reached.filter((one) => one.protection > 0);
}

const falls = (values: readonly number[]): boolean =>
  values.some((value, at) => at > 0 && value < values[at - 1] - equalSurvivals);

const rises = (values: readonly number[]): boolean =>
  values.some((value, at) => at > 0 && value > values[at - 1] + equalSurvivals);
