export * from "./quantity";
export { catalogue } from "./formula";
export * as river from "./river";
export * as rack from "./rack";
export * as rackLoss from "./rack/loss";
export * from "./notebook";
export * as fish from "./fish";
export * as protection from "./protection";
