import { published, type Source } from "../../formula/source";

/** Shape factor β of a bar's cross-section, for `rackLoss.kirschmer` and `rackLoss.blockageAngle`. */
export const shapeFactors = {
  sharpRectangle: 2.42,
  roundNose: 1.83,
  roundNoseAndTail: 1.67,
  roundNoseTapered: 1.035,
  lensNoseTapered: 0.92,
  fullyStreamlined: 0.76,
  roundRod: 1.79,
} as const;

/** The name of a bar's cross-section, such as `"sharpRectangle"`. */
export type BarShape = keyof typeof shapeFactors;

/** Where the shape factors come from. */
export const shapeFactorSource: Source = published(
  "Kirschmer 1926, Mitteilungen des Hydraulischen Instituts der TH München 1, as printed in water-power handbooks",
);
