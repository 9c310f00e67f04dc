import { type Family, type FamilyName, logisticFamily, rampFamily } from "./family";

/** The family of that name. */
export const familyNamed = (name: FamilyName): Family => (name === "ramp" ? rampFamily : logisticFamily);
