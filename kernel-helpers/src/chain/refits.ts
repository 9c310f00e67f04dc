import { noteUse } from "../formula/usage";
import { checkNumber, refuse } from "../statistics/checks";
import { chain } from "../survival/routes";
import { type ChainPlant, passingSurvival, type Passing } from "./plant";
import { riverOf } from "./river";

/** A change at one plant: how fish would pass it then, and what it costs. */
export interface RefitOption extends Passing {
  readonly plant: string;
  /** A word for the change, such as "bars at 15 mm"; "refit" where it is left out. */
  readonly option?: string;
  /** In any currency, the same for all options. */
  readonly cost?: number;
}

/** What decides: more fish at the sea, or more fish for the money. */
export type RefitAim = "gain" | "gainPerCost";

/** What one change alone would do. */
export interface RefitGain {
  readonly plant: string;
  readonly option: string;
  readonly cost: number | undefined;
  /** Survival at the plant, as it is and after the change. */
  readonly survivalNow: number;
  readonly survivalThen: number;
  /** Fish at the sea after the change, and how many more that are than without it. */
  readonly survivors: number;
  readonly gain: number;
  /** Gain over all fish that start; undefined where none do. */
  readonly gainShare: number | undefined;
  /** Fish gained for each unit of cost; undefined without a cost, or at a cost of 0. */
  readonly gainPerCost: number | undefined;
}

/**
 * Which plant to refit first: what each change alone gains at the sea.
 *
 * Returns the options, the best first: by fish gained, or by fish gained for the money. A change counts for the fish that
 * come to the plant and have the rest of the river before them, so the worst plant need not be the first. Throws a
 * RangeError for an option of a plant that is not in the list, a cost below 0 or missing where it decides, and for what
 * `chain.river` refuses.
 *
 * @example
 * chain.refits({ plants: [{ plant: "upper", next: "lower", entering: 1000, survival: 0.5 }, { plant: "lower", entering: 4000,
 *   survival: 0.7 }], options: [{ plant: "upper", survival: 0.9 }, { plant: "lower", survival: 0.9 }] })[0].plant // => "lower"
 */
export function refits({
  plants,
  options,
  by = "gain",
}: {
  readonly plants: readonly ChainPlant[];
  readonly options: readonly RefitOption[];
  readonly by?: RefitAim;
}): readonly RefitGain[] {
  const where = "chain.refits";
  noteUse(chain.id);
  checkOptions(where, plants, options, by);
  return gains(where, plants, options, by);
}

/** A change, and where the river stands once it and all before it are made. */
export interface RefitStep extends RefitGain {
  /** From 1. */
  readonly step: number;
  /** Cost of this change and all before it; undefined where one of them has none. */
  readonly spent: number | undefined;
  /** Survivors over all fish that start, after this change. */
  readonly survival: number | undefined;
}

/**
 * An order of refits: the best change first, then the best of what is left, each judged in the river that the earlier ones
 * have left.
 *
 * Returns the changes in their order, at most one for each plant, until none gains a fish or the budget allows none. Each
 * step is the best by itself; for a given budget another set may still gain more. Throws a RangeError as `chain.refits`
 * does, and for a budget below 0 or without costs.
 *
 * @example
 * chain.refitsInTurn({ plants: [{ plant: "upper", next: "lower", entering: 1000, survival: 0.5 }, { plant: "lower",
 *   survival: 0.5 }], options: [{ plant: "upper", survival: 0.8 }, { plant: "lower", survival: 1 }] })
 *   .map((step) => step.survivors) // => [500, 800]
 */
export function refitsInTurn({
  plants,
  options,
  by = "gain",
  budget,
}: {
  readonly plants: readonly ChainPlant[];
  readonly options: readonly RefitOption[];
  readonly by?: RefitAim;
  readonly budget?: number;
}): readonly RefitStep[] {
  const where = "chain.refitsInTurn";
  noteUse(chain.id);
  checkOptions(where, plants, options, by);
  if (budget !== undefined) {
    checkNumber(where, "budget", budget, { atLeast: 0 });
    checkCosts(where, options, "a budget needs the cost of every option");
  }
  const steps: RefitStep[] = [];
  let now = plants;
  let left = options;
  let spent: number | undefined = 0;
  for (;;) {
    const affordable: readonly RefitOption[] =
      budget === undefined
        ? left
        : left.filter(({ cost = 0 }) => (spent ?? 0) + cost <= budget * roundingRoom);
    const best: RefitGain | undefined = gains(where, now, affordable, by).find(({ gain }) => gain > 0);
    if (best === undefined) return steps;
    const chosen = affordable.find((one) => one.plant === best.plant && nameOf(one) === best.option);
    if (chosen === undefined) return steps;
    now = withOption(now, chosen);
    left = left.filter(({ plant }) => plant !== best.plant);
    spent = spent === undefined || best.cost === undefined ? undefined : spent + best.cost;
    steps.push({ ...best, step: steps.length + 1, spent, survival: riverOf(where, now).survival });
  }
}

/** 0.1 + 0.2 must fit into 0.3. */
const roundingRoom = 1 + 1e-12;

const nameOf = ({ option }: RefitOption): string => option ?? "refit";

const withOption = (
  plants: readonly ChainPlant[],
  { plant, survival, routes }: RefitOption,
): readonly ChainPlant[] => plants.map((one) => (one.plant === plant ? { ...one, survival, routes } : one));

function gains(
  where: string,
  plants: readonly ChainPlant[],
  options: readonly RefitOption[],
  by: RefitAim,
): readonly RefitGain[] {
  const now = riverOf(where, plants);
  const atPlant = new Map(now.plants.map(({ plant, plantSurvival }) => [plant, plantSurvival]));
  const rows = options.map((option): RefitGain => {
    const then = riverOf(where, withOption(plants, option));
    const gain = then.survivors - now.survivors;
    const { cost } = option;
    return {
      plant: option.plant,
      option: nameOf(option),
      cost,
      survivalNow: atPlant.get(option.plant) ?? Number.NaN,
      survivalThen: passingSurvival(where, whoseOf(option), option),
      survivors: then.survivors,
      gain,
      gainShare: now.entering === 0 ? undefined : gain / now.entering,
      gainPerCost: cost === undefined || cost === 0 ? undefined : gain / cost,
    };
  });
  // A gain that costs nothing comes before all that cost something.
  const worth = ({ gain, gainPerCost }: RefitGain): number =>
    by === "gain" ? gain : (gainPerCost ?? (gain > 0 ? Infinity : gain));
  return rows.toSorted((one, other) =>
    worth(one) === worth(other) ? other.gain - one.gain : worth(other) > worth(one) ? 1 : -1,
  );
}

const whoseOf = (option: RefitOption): string => `option "${nameOf(option)}" of plant "${option.plant}"`;

function checkOptions(
  where: string,
  plants: readonly ChainPlant[],
  options: readonly RefitOption[],
  by: RefitAim,
): void {
  if (by !== "gain" && by !== "gainPerCost")
    refuse(where, `by is "${String(by)}"; it may be "gain" or "gainPerCost"`);
  if (options.length === 0) refuse(where, "options is empty; give at least one");
  const seen = new Set<string>();
  for (const option of options) {
    if (!plants.some(({ plant }) => plant === option.plant)) {
      const known = plants.map(({ plant }) => plant).join(", ");
      refuse(where, `an option is for plant "${option.plant}"; the plants are ${known}`);
    }
    if (seen.has(whoseOf(option)))
      refuse(where, `${whoseOf(option)} stands twice; give each option a name of its own`);
    seen.add(whoseOf(option));
    passingSurvival(where, whoseOf(option), option);
    if (option.cost !== undefined)
      checkNumber(where, `cost of ${whoseOf(option)}`, option.cost, { atLeast: 0 });
  }
  if (by === "gainPerCost") checkCosts(where, options, 'by "gainPerCost" needs the cost of every option');
}

function checkCosts(where: string, options: readonly RefitOption[], why: string): void {
  const without = options.find(({ cost }) => cost === undefined);
  if (without !== undefined) refuse(where, `${whoseOf(without)} has no cost; ${why}`);
}
