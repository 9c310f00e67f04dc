import type { AnyFormula } from "../../formula/catalogue";
import type { InputSpec } from "../../formula/input";

/** Places within an input's range where cautions are asked for, as shares of the range. */
const places = [0.35, 0.5, 0.65] as const;

/**
 * Returns what a formula always warns of: the cautions that it raises at every place within its tested ranges.
 *
 * A caution is a function of the inputs, so that a sheet without inputs can only ask. Places that the formula refuses
 * say nothing; where it refuses all, so does this.
 */
export function constantCautions(formula: AnyFormula): readonly string[] {
  const asked: (readonly string[])[] = [];
  for (const place of places) {
    const inputs = Object.fromEntries(
      Object.entries(formula.inputs).map(([name, spec]) => [
        name,
        spec.many === true ? [within(spec, place)] : within(spec, place),
      ]),
    );
    try {
      asked.push(formula.cautions(inputs));
    } catch (refusal) {
      if (!(refusal instanceof RangeError)) throw refusal;
    }
  }
  const [first = [], ...others] = asked;
  // A caution that quotes its inputs differs from place to place, and is about them.
  return first.filter((caution) => others.every((other) => other.includes(caution)));
}

/** A value that the input allows: within the tested range where there is one, within the limits where there are two. */
function within(spec: InputSpec, place: number): number {
  const low = spec.tested?.[0] ?? spec.atLeast ?? spec.above ?? 0;
  const high = spec.tested?.[1] ?? spec.atMost ?? spec.below ?? low + 2;
  const value = low + place * (high - low);
  return spec.kind === "count" ? Math.max(1, Math.round(value)) : value;
}
