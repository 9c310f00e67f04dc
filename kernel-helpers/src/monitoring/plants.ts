import type { Discharge } from "../quantity/dimension";
import { u } from "../quantity/u";

/** A plant with nets behind it. */
export interface MonitoredPlant {
  readonly plant: string;
  /** Flow through all its turbines at full load. */
  readonly fullFlow: Discharge;
}

/** The two plants of the demo records. */
export const demoPlants: readonly MonitoredPlant[] = [
  { plant: "Halvern Weir", fullFlow: u.m3ps(34) },
  { plant: "Kelmar Mill", fullFlow: u.m3ps(2.4) },
];
