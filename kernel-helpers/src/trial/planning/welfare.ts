/** A point to settle, in writing, before live animals are ordered. */
export interface WelfarePoint {
  readonly topic: string;
  readonly question: string;
}

/**
 * Points of animal welfare and permits to settle before a trial: questions, not answers.
 *
 * Local law decides which permits a trial with live fish needs; this list is no legal advice.
 */
export const welfareChecklist: readonly WelfarePoint[] = [
  {
    topic: "Permit",
    question: "Which authority permits the trial, and the capture and transport of the fish?",
  },
  { topic: "Ethics approval", question: "Which committee has approved it, for how many fish, until when?" },
  { topic: "Replacement", question: "Can dummies, an earlier trial or a model answer part of the question?" },
  {
    topic: "Reduction",
    question: "Is the number of fish the smallest that answers it, and how was it worked out?",
  },
  { topic: "Refinement", question: "Which step hurts or frightens most, and what makes it gentler?" },
  { topic: "People", question: "Who handles, anaesthetises and kills, and with which training?" },
  { topic: "Source", question: "Where do the fish come from, with which health record?" },
  {
    topic: "Holding",
    question: "How dense, how long, with which water, cover and food before and after the run?",
  },
  {
    topic: "Temperature",
    question: "Between which temperatures are fish handled and run, and who stops outside?",
  },
  { topic: "Handling", question: "How long out of the water, with which nets and hands, how often?" },
  {
    topic: "Anaesthesia",
    question: "Which agent, at which dose, for what, and how long to recover before a run?",
  },
  { topic: "Humane end points", question: "At which signs is a fish or a run stopped at once, and by whom?" },
  {
    topic: "Afterwards",
    question: "How long are fish watched, and are they released, kept or killed, and how?",
  },
  { topic: "Record", question: "Where does every fish appear, also one that died in transport or holding?" },
];
