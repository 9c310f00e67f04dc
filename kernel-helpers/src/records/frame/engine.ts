/** What a frame asks of danfojs-node, in numbers alone; its own types stay out of this module's declarations. */
export interface FrameEngine {
  /** Count, mean, standard deviation, least, middle and greatest of one or more numbers. */
  describe(values: readonly number[]): Readonly<Record<DescribedFigure, number>>;
  /** The same for every group of values; `groups` gives each value's group as a whole number. */
  aggregate(
    groups: readonly number[],
    values: readonly number[],
    aggregations: readonly Aggregation[],
  ): ReadonlyMap<number, Readonly<Partial<Record<Aggregation, number>>>>;
}

export type DescribedFigure = "count" | "mean" | "std" | "min" | "median" | "max";
export type Aggregation = DescribedFigure | "sum";

export const aggregations: readonly Aggregation[] = ["count", "mean", "std", "min", "median", "max", "sum"];

type Danfo = typeof import("danfojs-node");

/** The block that the project's package.json needs: the published package asks for old and heavy parts. */
const overrides = {
  "danfojs-node": {
    "@tensorflow/tfjs-node": "npm:tslib@2.8.1",
    xlsx: "npm:tslib@2.8.1",
  },
  "@tensorflow/tfjs": { "core-js": "npm:tslib@2.8.1" },
};

let loaded: Promise<FrameEngine> | undefined;

/** Loads danfojs-node when a frame is first made. Throws an Error that says what to add if it is not installed. */
export function frameEngine(): Promise<FrameEngine> {
  loaded ??= load();
  return loaded;
}

async function load(): Promise<FrameEngine> {
  let danfo: Danfo;
  try {
    danfo = await import("danfojs-node");
  } catch (error) {
    loaded = undefined;
    if (isMissing(error)) {
      throw new Error(
        "frame, and with it groupBy, describe and join, needs danfojs-node, which is not installed; " +
          `put "overrides": ${JSON.stringify(overrides)} into your package.json and run ` +
          "npm install danfojs-node@1.1.2 @tensorflow/tfjs@3.21.0.",
        { cause: error },
      );
    }
    throw error;
  }
  return engineOf(danfo);
}

function isMissing(error: unknown): boolean {
  return (
    error instanceof Error &&
    "code" in error &&
    (error.code === "ERR_MODULE_NOT_FOUND" || error.code === "MODULE_NOT_FOUND")
  );
}

function engineOf({ DataFrame, Series }: Danfo): FrameEngine {
  return {
    describe(values) {
      const figures = new Series([...values]).describe();
      const at = (name: DescribedFigure): number => numberOf(figures.values[figures.index.indexOf(name)]);
      return {
        count: at("count"),
        mean: at("mean"),
        std: spread(values.length, at("std")),
        min: at("min"),
        median: at("median"),
        max: at("max"),
      };
    },
    aggregate(groups, values, wanted) {
      if (values.length === 0) return new Map();
      const data = new DataFrame(
        groups.map((group, i) => [group, values[i]]),
        { columns: ["group", "value"] },
      );
      const result = data.groupby(["group"]).agg({ value: [...new Set<Aggregation>(["count", ...wanted])] });
      const group = result.columns.indexOf("group");
      const sizes = result.columns.indexOf("value_count");
      return new Map(
        rowsOf(result.values).map((row) => {
          const figures = wanted.map((name): [Aggregation, number] => {
            const figure = numberOf(row[result.columns.indexOf(`value_${name}`)]);
            return [name, name === "std" ? spread(numberOf(row[sizes]), figure) : figure];
          });
          return [numberOf(row[group]), Object.fromEntries(figures)];
        }),
      );
    },
  };
}

/** One value has no spread; the library gives 0 for it. */
function spread(count: number, std: number): number {
  return count > 1 ? std : NaN;
}

function rowsOf(values: readonly unknown[]): readonly (readonly unknown[])[] {
  return values.filter((row) => Array.isArray(row));
}

function numberOf(value: unknown): number {
  return typeof value === "number" ? value : NaN;
}
