export { annualLoss, type AnnualLoss, type TurbineDay } from "./annualLoss";
export { power } from "./power";
export { turbineFlow } from "./turbineFlow";
