import { bypassExercises } from "./bypass";
import { chainOfPlantsExercises } from "./chainOfPlants";
import { cloggingAndCleaningExercises } from "./cloggingAndCleaning";
import { designNoteExercises } from "./designNote";
import { energyTradeOffExercises } from "./energyTradeOff";
import { guidelineExercises } from "./guideline";
import { headLossExercises } from "./headLoss";
import { liveFishTrialsExercises } from "./liveFishTrials";
import { planningATrialExercises } from "./planningATrial";
import { monitoringExercises } from "./monitoring";
import { protectionCurveExercises } from "./protectionCurve";
import { rackLayoutExercises } from "./rackLayout";
import { riverAndPlantExercises } from "./riverAndPlant";
import { startHereExercises } from "./startHere";
import { surveyOfBuiltRacksExercises } from "./surveyOfBuiltRacks";
import { survivalBySizeClassExercises } from "./survivalBySizeClass";
import { turbinePassageExercises } from "./turbinePassage";
import { uncertaintyExercises } from "./uncertainty";
import { velocityFieldExercises } from "./velocityField";

/** Every exercise of the course by its number: notebook, then exercise. */
export const exercises = {
  ...startHereExercises,
  ...riverAndPlantExercises,
  ...surveyOfBuiltRacksExercises,
  ...rackLayoutExercises,
  ...headLossExercises,
  ...cloggingAndCleaningExercises,
  ...bypassExercises,
  ...liveFishTrialsExercises,
  ...planningATrialExercises,
  ...protectionCurveExercises,
  ...turbinePassageExercises,
  ...survivalBySizeClassExercises,
  ...monitoringExercises,
  ...velocityFieldExercises,
  ...uncertaintyExercises,
  ...chainOfPlantsExercises,
  ...energyTradeOffExercises,
  ...designNoteExercises,
  ...guidelineExercises,
};

/** The number of an exercise, such as "03.1". */
export type ExerciseId = keyof typeof exercises;
