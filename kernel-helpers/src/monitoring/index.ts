export { catchRecord, catchRecordFor, type CatchRow, type Group, type Net } from "./catchRecord";
export { type MonitoredPlant } from "./plants";
