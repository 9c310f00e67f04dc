/** This machine talking to itself alone. */
import type { Server } from "node:net";

/** The only address that anything here listens at. */
export const loopback = "127.0.0.1";

/** Returns the port that a server listens at. Throws an `Error` where it could open none. */
export function portOf(server: Server): number {
  const bound = server.address();
  if (bound === null || typeof bound === "string") throw new Error(`No port of ${loopback} could be opened.`);
  return bound.port;
}
