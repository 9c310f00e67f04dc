import type { Length } from "../quantity/dimension";
import { u } from "../quantity/u";
import { mortalityKaplanEel } from "./eelRegression";
import { strikeFrancis } from "./francis";
import { strikeKaplan } from "./kaplan";
import type { TurbineModel } from "./model";
import { strikePropeller } from "./propeller";
import { mortalityFrancisSalmonid, mortalityKaplanSalmonid } from "./salmonidRegressions";
import type { AxialUnit, FrancisUnit } from "./unit";
import { bladeSpacing, strikeProbability, waterLength } from "./waterLength";

/** What a model says about a fish of some length: its chance to be struck, or, by a regression, to die. */
export interface Passage {
  readonly title: string;
  readonly formulas: readonly string[];
  readonly probability: (totalLength: Length) => number;
  readonly tested: (totalLength: Length) => boolean;
  readonly cautions: (totalLength: Length) => readonly string[];
}

/** The parts of a formula that a passage needs, its other inputs fixed. */
interface LengthFormula<Fixed extends object> {
  readonly id: string;
  readonly evaluate: (inputs: Fixed & { readonly totalLength: number }) => number;
  readonly tested: (inputs: Fixed & { readonly totalLength: Length }) => boolean;
  readonly cautions: (inputs: Fixed & { readonly totalLength: Length }) => readonly string[];
}

/** Fixes everything but the length. A first checked call refuses what the formula refuses. */
function fixed<Fixed extends object>(
  title: string,
  formula: LengthFormula<Fixed>,
  inputs: Fixed,
  alsoUsed: readonly string[] = [],
): Passage {
  formula.cautions({ ...inputs, totalLength: u.mm(100) });
  return {
    title,
    formulas: [...alsoUsed, formula.id],
    probability: (totalLength) => formula.evaluate({ ...inputs, totalLength }),
    tested: (totalLength) => formula.tested({ ...inputs, totalLength }),
    cautions: (totalLength) => formula.cautions({ ...inputs, totalLength }),
  };
}

const refuse = (text: string): never => {
  throw new RangeError(`turbine.survivalLaw: ${text}.`);
};

const needed = <T>(value: T | undefined, name: string, model: string): T =>
  value ?? refuse(`${model} needs the unit's ${name}, which is missing`);

/** The types say so already; records read from a file may still bring the wrong unit. */
function checkType(model: string, unit: AxialUnit | FrancisUnit, allowed: readonly string[]): void {
  if (!allowed.includes(unit.type)) {
    refuse(`${model} describes ${allowed.join(" or ")} units; this one is ${unit.type}`);
  }
}

const spacingOf = (unit: AxialUnit): { readonly spacing: Length; readonly formulas: readonly string[] } =>
  unit.bladeSpacing !== undefined
    ? { spacing: unit.bladeSpacing, formulas: [] }
    : {
        spacing: bladeSpacing({
          runnerDiameter: unit.runnerDiameter,
          hubDiameter: needed(unit.hubDiameter, "bladeSpacing or hubDiameter", "kaplanSalmonid"),
          blades: unit.blades,
        }),
        formulas: [bladeSpacing.id],
      };

const axialFlow = (unit: AxialUnit) => ({
  discharge: unit.discharge,
  head: unit.head,
  runnerDiameter: unit.runnerDiameter,
  rotationalSpeed: unit.rotationalSpeed,
  efficiency: unit.efficiency,
  blades: unit.blades,
});

const midBlade = strikeKaplan.inputs.radiusRatio.default;

/** Reads a model and its unit. Throws a RangeError where they do not fit. */
export function passageOf(choice: TurbineModel): Passage {
  switch (choice.model) {
    case "waterLengthStrike": {
      checkType(choice.model, choice.unit, ["kaplan", "propeller"]);
      const { unit, inflowAngle } = choice;
      const water = waterLength({
        discharge: unit.discharge,
        rotationalSpeed: unit.rotationalSpeed,
        blades: unit.blades,
        runnerDiameter: unit.runnerDiameter,
        hubDiameter: needed(unit.hubDiameter, "hubDiameter", choice.model),
        inflowAngle,
      });
      return fixed("strike by water length", strikeProbability, { waterLength: water }, [waterLength.id]);
    }
    case "kaplanStrike": {
      checkType(choice.model, choice.unit, ["kaplan"]);
      const { unit, radiusRatio = midBlade, correlation } = choice;
      return fixed("Kaplan strike", strikeKaplan, { ...axialFlow(unit), radiusRatio, correlation });
    }
    case "propellerStrike": {
      checkType(choice.model, choice.unit, ["propeller", "kaplan"]);
      const { unit, radiusRatio = midBlade, correlation } = choice;
      const bestDischarge = needed(unit.bestDischarge, "bestDischarge", choice.model);
      const inputs = { ...axialFlow(unit), bestDischarge, radiusRatio, correlation };
      return fixed("propeller strike", strikePropeller, inputs);
    }
    case "francisStrike": {
      checkType(choice.model, choice.unit, ["francis"]);
      const { type: _, ...unit } = choice.unit;
      return fixed("Francis strike", strikeFrancis, { ...unit, correlation: choice.correlation });
    }
    case "kaplanSalmonid": {
      checkType(choice.model, choice.unit, ["kaplan", "propeller"]);
      const { spacing, formulas } = spacingOf(choice.unit);
      return fixed("young salmonids, Kaplan", mortalityKaplanSalmonid, { bladeSpacing: spacing }, formulas);
    }
    case "kaplanEel": {
      checkType(choice.model, choice.unit, ["kaplan", "propeller"]);
      const { runnerDiameter, rotationalSpeed } = choice.unit;
      return fixed("eel, Kaplan", mortalityKaplanEel, { runnerDiameter, rotationalSpeed });
    }
    case "francisSalmonid": {
      checkType(choice.model, choice.unit, ["francis"]);
      const { head, inletDiameter, rotationalSpeed } = choice.unit;
      return fixed("young salmonids, Francis", mortalityFrancisSalmonid, {
        head,
        inletDiameter,
        rotationalSpeed,
      });
    }
    default:
      return refuse(
        `there is no model "${String((choice as { readonly model: unknown }).model)}"; ${modelNames}`,
      );
  }
}

const modelNames =
  "the models are waterLengthStrike, kaplanStrike, propellerStrike, francisStrike, kaplanSalmonid, kaplanEel, francisSalmonid";
