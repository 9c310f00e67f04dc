import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { request } from "node:http";
import { connect } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, describe, expect, test } from "vitest";
import { serveFolder, type Serving } from "../../kernel-helpers/src/workshop/serve";

let outside: string;
let folder: string;
const open: Serving[] = [];

async function serve(port = 0): Promise<Serving> {
  const serving = await serveFolder(folder, port);
  open.push(serving);
  return serving;
}

interface Answer {
  readonly status: number | undefined;
  readonly headers: Readonly<Record<string, string | string[] | undefined>>;
  readonly body: string;
}

/** Asks with the path exactly as given: fetch would tidy it. */
function ask(port: number, path: string, options: { method?: string; host?: string } = {}): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const headers = { host: options.host ?? `127.0.0.1:${port}` };
    request({ host: "127.0.0.1", port, path, method: options.method ?? "GET", headers }, (response) => {
      let body = "";
      response.setEncoding("utf8").on("data", (text: string) => (body += text));
      response.on("end", () => resolve({ status: response.statusCode, headers: response.headers, body }));
    })
      .on("error", reject)
      .end();
  });
}

beforeAll(() => {
  outside = mkdtempSync(join(tmpdir(), "serve-test-"));
  folder = join(outside, "course");
  mkdirSync(join(folder, "assets"), { recursive: true });
  writeFileSync(join(outside, "secret.txt"), "secret");
  mkdirSync(join(outside, "course-beside"));
  writeFileSync(join(outside, "course-beside", "secret.txt"), "secret");
  writeFileSync(join(folder, "index.html"), "<!doctype html><p>index");
  writeFileSync(join(folder, ".hidden"), "secret");
  writeFileSync(join(folder, "assets", "course.css"), "p { margin: 0 }");
});

afterEach(async () => {
  for (const serving of open.splice(0)) await serving.close();
});
afterAll(() => rmSync(outside, { recursive: true }));

describe("serveFolder", () => {
  test("serves the index and files, each with its type", async () => {
    const { port, address } = await serve();
    expect(address).toBe(`http://127.0.0.1:${port}/`);
    const index = await ask(port, "/");
    expect([index.status, index.body]).toEqual([200, "<!doctype html><p>index"]);
    expect(index.headers["content-type"]).toBe("text/html;charset=utf-8");
    expect((await ask(port, "/assets/course.css")).headers["content-type"]).toBe("text/css");
  });

  test("sends a strict policy with every answer, refusals included", async () => {
    const { port } = await serve();
    for (const path of ["/", "/nothing.html"]) {
      const { headers } = await ask(port, path);
      expect(headers["content-security-policy"], path).toMatch(
        /^default-src 'none'; script-src 'self';.*frame-ancestors 'none'$/,
      );
      expect(headers["x-content-type-options"], path).toBe("nosniff");
      expect(headers["cache-control"], path).toBe("no-store");
    }
  });

  test.each([
    "/../secret.txt",
    "/..%2fsecret.txt",
    "/%2e%2e/secret.txt",
    "/%2e%2e%2fsecret.txt",
    "/assets/../../secret.txt",
    "/assets/%2e%2e/%2e%2e/secret.txt",
    "/..\\secret.txt",
    "/../course-beside/secret.txt",
    "//secret.txt",
    "/.hidden",
    "/%00",
    "/%",
    "http://127.0.0.1/../secret.txt",
  ])("gives nothing outside its folder: %s", async (path) => {
    const { port } = await serve();
    const answer = await ask(port, path);
    expect(answer.status).toBe(404);
    expect(answer.body).toBe("There is no such page.\n");
  });

  test("refuses to be asked under another name, so that no page elsewhere reads it", async () => {
    const { port } = await serve();
    expect((await ask(port, "/", { host: "example.org" })).status).toBe(403);
    expect((await ask(port, "/", { host: `example.org:${port}` })).status).toBe(403);
    expect((await ask(port, "/", { host: `localhost:${port}` })).status).toBe(200);
  });

  test("can be read only", async () => {
    const { port } = await serve();
    const answer = await ask(port, "/", { method: "POST" });
    expect([answer.status, answer.headers["allow"]]).toEqual([405, "GET, HEAD"]);
    expect((await ask(port, "/", { method: "HEAD" })).status).toBe(200);
  });

  test("moves to a free port where the wanted one is taken, and says so", async () => {
    const first = await serve();
    const second = await serve(first.port);
    expect(first.moved).toBe(false);
    expect(second.moved).toBe(true);
    expect(second.port).not.toBe(first.port);
    expect((await ask(second.port, "/")).status).toBe(200);
  });

  test("closes with a connection still open, and gives its port back", async () => {
    const serving = await serveFolder(folder, 0);
    const socket = connect(serving.port, "127.0.0.1");
    await new Promise((resolve) => socket.once("connect", resolve));
    const ended = new Promise((resolve) => socket.once("close", resolve));
    await serving.close();
    await ended;
    const again = await serve(serving.port);
    expect(again.moved).toBe(false);
  });
});
