import type { Host } from "./host";
import { nodeHost } from "./node/nodeHost";

/** The host this build runs on: Node here; a page's bundle puts its own in this file's place. */
export const host: Host = nodeHost;
