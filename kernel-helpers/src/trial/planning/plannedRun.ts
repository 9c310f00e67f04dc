/** A value of a factor: a word, a number or a quantity. */
export type Level = string | number;

/** The factors of a trial with their levels. */
export type Factors = Readonly<Record<string, readonly Level[]>>;

/** A run of the plan. */
export type PlannedRun<F extends Factors = Factors> = {
  /** In the order in which they are made. */
  readonly runId: string;
  readonly batch: string;
  /** Days of the whole trial, from 1. */
  readonly day: number;
  /** Place in the order of its day, from 1. */
  readonly place: number;
  /** Which control it is; undefined for a run of the factorial. */
  readonly control: string | undefined;
  /** Which replicate of the factorial it belongs to, from 1; undefined for a control. */
  readonly replicate: number | undefined;
  readonly fish: number;
} & {
  /** The level of each factor; undefined where a control has none. */
  readonly [K in keyof F]: F[K][number] | undefined;
};

/** Names that a run has already: no factor may take one. */
export const ownColumns = ["runId", "batch", "day", "place", "control", "replicate", "fish"] as const;

/** The level of a factor in a run, by the factor's name: the compiler can't follow a name known at run time only. */
export const levelOf = (run: object, factor: string): Level | undefined =>
  (run as Readonly<Record<string, Level | undefined>>)[factor];
