import { headLossExercises } from "./headLoss";
import { rackLayoutExercises } from "./rackLayout";

/** Every exercise of the course by its number: notebook, then exercise. */
export const exercises = {
  ...rackLayoutExercises,
  ...headLossExercises,
};

/** The number of an exercise, such as "03.1". */
export type ExerciseId = keyof typeof exercises;
