export { Offence, RecordsError } from "./offence";
export { readRecords } from "./readRecords";
export { readTable } from "./readTable";
export { checkRecords, type Records } from "./records";
export type { Table } from "./table";
