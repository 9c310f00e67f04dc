/** The term (O/(1−O))^n with which blockage enters the laws fitted to racks. */
export const blockageTerm = (blockage: number, exponent: number): number =>
  (blockage / (1 - blockage)) ** exponent;

/** Loss coefficient of the spacers of an inclined rack, 1.79 (Os/(1−Os))^0.77. */
export const spacerTerm = (spacerBlockage: number): number => 1.79 * blockageTerm(spacerBlockage, 0.77);
