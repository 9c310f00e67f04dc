import type { EfficiencyCurve } from "../../energy/efficiencyCurve";
import { dispatch } from "../../energy/dispatch";
import { annuityFactor } from "../../energy/money/annuityFactor";
import { revenue } from "../../energy/money/revenue";
import { type SeasonInputs, seasonSurvival } from "../../energy/season/seasonSurvival";
import type { Discharge, Energy } from "../../quantity/dimension";
import { u } from "../../quantity/u";
import { defineExercise } from "./definition";

/** The smallest flow on which this many units run, found by halving. */
function flowOfUnits(units: readonly EfficiencyCurve[], running: number): Discharge {
  let low = 0;
  let high = units.reduce((sum, unit) => sum + unit.largest, 0);
  for (let step = 0; step < 50; step++) {
    const middle = (low + high) / 2;
    if (dispatch({ available: u.m3ps(middle), units }).running >= running) high = middle;
    else low = middle;
  }
  return u.m3ps(high);
}

/** Exercises of notebook 14, energy trade-off. */
export const energyTradeOffExercises = {
  "14.1": defineExercise({
    expected: ({
      bypassLoss,
      pricePerMWh,
    }: {
      readonly bypassLoss: Energy;
      readonly pricePerMWh: number;
    }): number => revenue({ energy: bypassLoss, pricePerMWh }) / 2,
    within: 0.01,
    hint: "half the water is half the energy; the price is one of a MWh, so turn the energy into MWh first.",
  }),
  "14.2": defineExercise({
    expected: ({ units }: { readonly units: readonly EfficiencyCurve[] }) => flowOfUnits(units, 2),
    within: 0.005,
    unit: "m3ps",
    hint: "ask energy.dispatch at one flow after the other how many units run.",
  }),
  "14.3": defineExercise({
    expected: ({ season }: { readonly season: SeasonInputs }): number =>
      seasonSurvival({ ...season, weirEffectiveness: 2 }).byNumbers,
    within: 0.002,
    hint: "run the season again with one more input: the effectiveness of the weir.",
  }),
  "14.4": defineExercise({
    expected: ({
      points,
      worthOfPoint,
      lostRevenue,
      interestRate,
      years,
    }: {
      readonly points: number;
      readonly worthOfPoint: number;
      readonly lostRevenue: number;
      readonly interestRate: number;
      readonly years: number;
    }): number => (points * worthOfPoint - lostRevenue) / annuityFactor({ interestRate, years }),
    within: 0.01,
    hint: "what the points are worth in a year, less what is lost in a year, must pay the annuity.",
  }),
};
