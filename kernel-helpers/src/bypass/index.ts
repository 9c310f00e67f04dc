export { broadCrestedWeir, contractedWeir, sharpCrestedWeir, submergence } from "./weirs";
export { sluiceGate, sluiceGateCoefficient, submergedOrifice } from "./openings";
export { criticalDepth, manning, normalDepth } from "./channel";
export { acceleration, entranceVelocityRatio, impactVelocity } from "./entrance";
