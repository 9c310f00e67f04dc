/** Cuts an estimated share off at 0 and at 1. */
export const clipShare = (share: number): number => Math.min(1, Math.max(0, share));
