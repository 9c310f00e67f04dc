export { turbineFlow } from "./turbineFlow";
