export { blockage, rackLength as length } from "./geometry";
