/** Where a kernel listens: five free ports on this machine and the key that signs its messages. */
import { randomBytes } from "node:crypto";
import { createServer, type Server } from "node:net";
import { loopback, portOf } from "./loopback";

/** The connection file of the Jupyter protocol, in its own words. */
export interface Connection {
  readonly transport: "tcp";
  readonly ip: string;
  readonly shell_port: number;
  readonly iopub_port: number;
  readonly control_port: number;
  readonly stdin_port: number;
  readonly hb_port: number;
  readonly key: string;
  readonly signature_scheme: "hmac-sha256";
}

/** Returns a connection with a new key on five ports of 127.0.0.1 that are free now. */
export async function newConnection(): Promise<Connection> {
  // All five stay open until the last is known, so that no port is given twice.
  const servers = await Promise.all([listen(), listen(), listen(), listen(), listen()]);
  const ports = servers.map(portOf);
  await Promise.all(servers.map(close));
  const [shell = 0, iopub = 0, control = 0, stdin = 0, heartbeat = 0] = ports;
  return {
    transport: "tcp",
    ip: loopback,
    shell_port: shell,
    iopub_port: iopub,
    control_port: control,
    stdin_port: stdin,
    hb_port: heartbeat,
    key: randomBytes(32).toString("hex"),
    signature_scheme: "hmac-sha256",
  };
}

/** Returns the ZeroMQ address of one of the connection's ports. */
export function endpoint(connection: Connection, port: number): string {
  return `${connection.transport}://${connection.ip}:${port}`;
}

function listen(): Promise<Server> {
  return new Promise((resolve, reject) => {
    const server = createServer();
    server.once("error", reject);
    server.listen(0, loopback, () => resolve(server));
  });
}

function close(server: Server): Promise<void> {
  return new Promise((resolve, reject) => {
    server.close((error) => (error === undefined ? resolve() : reject(error)));
  });
}
