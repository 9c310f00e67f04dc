/** Acceleration of free fall g in m/s². */
export const freeFall = 9.81;

/** Density of fresh water ρ in kg/m³. */
export const waterDensity = 1000;
