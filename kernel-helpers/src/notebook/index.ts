export { cautions, type Cautious } from "./cautions";
export { crossCheck } from "./crossCheck";
export { exercise } from "./exercise";
export { figure } from "./figure";
export { show } from "./show";
export { sources } from "./sources";
export { table } from "./table";
export { worked } from "./worked";
