/** Serving a folder of pages on this machine, to this machine alone. */
import { createServer, type IncomingMessage, type Server, type ServerResponse } from "node:http";
import sirv from "sirv";
import { loopback, portOf } from "./loopback";
import { contentPolicy } from "./pages/shell";

/** A folder that is being served. */
export interface Serving {
  readonly address: string;
  readonly port: number;
  /** Whether the wanted port was taken, so that a free one serves. */
  readonly moved: boolean;
  /** Stops serving, with every connection that is open. */
  close(): Promise<void>;
}

/**
 * Serves the files that `folder` holds now on 127.0.0.1, at `wantedPort` or, where that is taken, at a free one.
 *
 * Returns the address. Port 0 stands for any free port. Rejects where neither port can be opened.
 */
export async function serveFolder(folder: string, wantedPort: number): Promise<Serving> {
  const server = createServer();
  const moved = !(await listen(server, wantedPort));
  if (moved && !(await listen(server, 0))) throw new Error(`No port of ${loopback} could be opened.`);
  const port = portOf(server);
  // The files are listed once: an address is looked up in that list and never becomes a path.
  const files = sirv(folder, { etag: false, setHeaders: harden });
  server.on("request", (request, response) => answer(files, port, request, response));
  return {
    address: `http://${loopback}:${port}/`,
    port,
    moved,
    close: () =>
      new Promise((resolve, reject) => {
        server.close((error) => (error === undefined ? resolve() : reject(error)));
        server.closeAllConnections();
      }),
  };
}

function answer(
  files: ReturnType<typeof sirv>,
  port: number,
  request: IncomingMessage,
  response: ServerResponse,
): void {
  // A page elsewhere could give its own name our address; it would then ask under that name.
  const asked = request.headers.host;
  if (asked !== `${loopback}:${port}` && asked !== `localhost:${port}`) {
    refuse(response, 403, "This server answers at its own address only.");
  } else if (request.method !== "GET" && request.method !== "HEAD") {
    response.setHeader("Allow", "GET, HEAD");
    refuse(response, 405, "These pages can be read only.");
  } else {
    files(request, response, () => refuse(response, 404, "There is no such page."));
  }
}

function harden(response: ServerResponse): void {
  response.setHeader("Content-Security-Policy", `${contentPolicy}; frame-ancestors 'none'`);
  response.setHeader("X-Content-Type-Options", "nosniff");
  response.setHeader("Referrer-Policy", "no-referrer");
  response.setHeader("Cross-Origin-Resource-Policy", "same-origin");
  response.setHeader("Cache-Control", "no-store");
}

function refuse(response: ServerResponse, status: number, sentence: string): void {
  harden(response);
  response.writeHead(status, { "Content-Type": "text/plain; charset=utf-8" });
  response.end(`${sentence}\n`);
}

/** Returns whether the server listens now; false where the port is taken or not ours to open. */
function listen(server: Server, port: number): Promise<boolean> {
  return new Promise((resolve, reject) => {
    const refused = (error: NodeJS.ErrnoException): void => {
      server.off("listening", listening);
      if (error.code === "EADDRINUSE" || error.code === "EACCES") resolve(false);
      else reject(error);
    };
    const listening = (): void => {
      server.off("error", refused);
      resolve(true);
    };
    server.once("error", refused).once("listening", listening).listen(port, loopback);
  });
}
