/**
 * Sizes met in practice, in SI: common practice, no source.
 *
 * They are wide on purpose. A value outside them is more often millimetres typed as metres than a rack or fish that
 * anybody has built or caught, so a formula answers with a caution and never refuses.
 */
export const usualSizes = {
  barThickness: [0.002, 0.1],
  clearSpacing: [0.003, 0.3],
  channelWidth: [0.2, 300],
  approachVelocity: [0.02, 5],
  totalLength: [0.005, 3],
} as const;
