export * from "./quantity";
export { catalogue } from "./formula";
export * as rack from "./rack";
export * from "./notebook";
export * as fish from "./fish";
export * as protection from "./protection";
