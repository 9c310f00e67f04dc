import { checkInputs } from "../formula/check";
import type { InputSpecs, InputValues } from "../formula/input";

/** A record of SI numbers, one for each spec. */
export type Numbers<S extends InputSpecs> = { readonly [N in keyof S]: number };

/** Checks a record whose specs take one number each; returns it with defaults filled in. */
export const checkedNumbers = <S extends InputSpecs>(caller: string, specs: S, given: object): Numbers<S> =>
  // A boundary: checkInputs has made sure that every name of the specs holds one number.
  checkInputs(caller, specs, given as InputValues) as Numbers<S>;
