import type { PlantedError } from "./monitoring-truth";

/** The errors planted in `monitoring-catches.csv`, as a hurried hand makes them. */
export const plantedErrors: readonly PlantedError[] = [
  planted("N0016", "deadAtOnce", "48", "more dead than caught"),
  planted("N0018", "released", "5", "more caught than released"),
  planted("N0022", "catchId", "again", "the row stands twice"),
  planted("N0027", "species", "roch", "no such species"),
  planted("N0034", "caught", "-7", "a negative count"),
  planted("N0038", "net", "spillway", "no such net"),
  planted("N0041", "uninjured", "14", "the injury classes do not add up to the catch"),
  planted("N0045", "caught", "4.5", "a count that is not whole"),
  planted("N0052", "deadAfter96h", "7", "more die later than were left alive"),
  planted("N0057", "night", "2023-10-32", "no such day"),
  planted("N0059", "lengthTo", "10", "the class ends below its beginning"),
  planted(
    "N0125",
    "turbineFlow",
    "340.00",
    "above the full flow of the plant: the decimal point has slipped",
  ),
  planted("N0214", "turbineLoad", "0", "fish behind the turbine while it stood still"),
  planted("N0301", "plant", "Halvern Wier", "no such plant"),
  planted("N0443", "caught", "", "no count"),
  planted("N0511", "released", "50", "wild fish are not released"),
  planted("N0664", "turbineFlow", "n/a", "not a number"),
];

function planted(catchId: string, column: string, cell: string, wrong: string): PlantedError {
  return { catchId, column, cell, wrong };
}
