export { annualLoss, type AnnualLoss, type TurbineDay } from "./annualLoss";
export { dispatch, type Dispatch } from "./dispatch";
export { efficiencyCurve, type EfficiencyCurve, type EfficiencyPoint } from "./efficiencyCurve";
export { efficiencyRecord } from "./efficiencyRecord";
export { annuityFactor } from "./money/annuityFactor";
export { type Gains, paretoFront } from "./money/paretoFront";
export { revenue } from "./money/revenue";
export { type Option, tradeOff, type WeighedOption } from "./money/tradeOff";
export { type EnergyAccount, causes as lossCauses, type LossCause } from "./operation/account";
export { cloggingByDay, type CloggedLoss } from "./operation/cloggingByDay";
export { type OperatingDay, operation, type Operation } from "./operation/operation";
export type { RunOfRiverPlant } from "./operation/plant";
export { type PartOfDay, seasonShutdown, type Shutdown } from "./operation/shutdown";
export { power } from "./power";
export { migrationRecord, type MigrationRow } from "./season/migrationRecord";
export { type LengthClass, type MigratingSpecies, populations, type SampledFish } from "./season/populations";
export {
  type RouteEffectiveness,
  type RouteFlows,
  type RouteShares,
  routeShares,
} from "./season/routeShares";
export { type SeasonInputs, type SeasonLaws, seasonSurvival } from "./season/seasonSurvival";
export type { ClassOfSeason, SeasonRoutes, SpeciesOfSeason, SurvivalOfSeason } from "./season/tally";
export { characteristicYears, inYear, type YearOfFlow } from "./season/years";
export { turbineFlow } from "./turbineFlow";
