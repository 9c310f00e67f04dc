export { barrier } from "./barrier";
export { barrierLaw, logisticLaw, type ProtectionLaw, rampLaw } from "./law";
export { logistic } from "./logistic";
export { ramp } from "./ramp";
