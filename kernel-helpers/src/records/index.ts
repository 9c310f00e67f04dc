export { columnsOf, type DescribedColumn } from "./columnsOf";
export { type Description, frame, type Frame, type Groups } from "./frame";
export { Offence, RecordsError } from "./offence";
export { readRecords } from "./readRecords";
export { readTable } from "./readTable";
export { checkRecords, type ReadOptions, type Records, type SetAside } from "./records";
export type { Table } from "./table";
