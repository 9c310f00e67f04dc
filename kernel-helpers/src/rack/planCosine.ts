/** Cosine of a plan angle up to 90°: exactly 0 at 90°, where Math.cos leaves 6e-17 of rounding behind. */
export const planCosine = (rackAngle: number): number => Math.sin(Math.PI / 2 - rackAngle);
