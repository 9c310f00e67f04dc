import { createHmac } from "node:crypto";
import { describe, expect, test } from "vitest";
import { decode, encode, newHeader, sign, verify } from "../../kernel-helpers/src/workshop/wire";

const key = "a key";
const signed = (parts: Buffer[]): Buffer[] => [
  Buffer.from("<IDS|MSG>"),
  Buffer.from(sign(key, parts)),
  ...parts,
];
const frame = (value: unknown): Buffer => Buffer.from(JSON.stringify(value));

describe("sign", () => {
  test("gives the HMAC-SHA256 of the frames one after another", () => {
    // Case 2 of RFC 4231, cut into two frames.
    const frames = [Buffer.from("what do ya want "), Buffer.from("for nothing?")];
    expect(sign("Jefe", frames)).toBe("5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843");
  });

  test("gives no signature for an empty key", () => {
    expect(sign("", [Buffer.from("{}")])).toBe("");
  });
});

describe("verify", () => {
  test("refuses another key, another frame and a cut signature", () => {
    const frames = [Buffer.from("{}")];
    const signature = sign(key, frames);
    expect(verify(key, signature, frames)).toBe(true);
    expect(verify("another", signature, frames)).toBe(false);
    expect(verify(key, signature, [Buffer.from("[]")])).toBe(false);
    expect(verify(key, signature.slice(1), frames)).toBe(false);
  });
});

describe("decode", () => {
  test("reads back what encode wrote, with the identities before the delimiter left out", () => {
    const header = newHeader("execute_request", "a session");
    const frames = [Buffer.from("an identity"), ...encode(key, header, { code: "1 → 2" })];
    expect(decode(key, frames)).toEqual({ header, parentId: "", content: { code: "1 → 2" } });
  });

  test("gives the id of the request that a message answers", () => {
    const header = newHeader("status", "a session");
    const parts = [header, { msg_id: "the request" }, {}, { execution_state: "idle" }].map(frame);
    const signature = createHmac("sha256", key).update(Buffer.concat(parts)).digest("hex");
    const message = decode(key, [Buffer.from("<IDS|MSG>"), Buffer.from(signature), ...parts]);
    expect(message.parentId).toBe("the request");
  });

  test("refuses a message whose content was changed on the way", () => {
    const frames = encode(key, newHeader("status", ""), { a: 1 });
    frames[5] = frame({ a: 2 });
    expect(() => decode(key, frames)).toThrow(
      /carries the signature "[0-9a-f]{64}", which is not that of its frames/,
    );
  });

  test("refuses frames without delimiter, with too few parts, and parts that are no JSON objects", () => {
    expect(() => decode(key, [Buffer.from("x")])).toThrow("A message of 1 frames has no <IDS|MSG> frame.");
    expect(() => decode(key, signed([frame({})]))).toThrow("A message ends 2 frames after <IDS|MSG>");
    expect(() => decode(key, signed([frame({}), frame({}), frame({}), frame([1])]))).toThrow(
      "The content of a message is not a JSON object: [1]",
    );
    expect(() => decode(key, signed([Buffer.from("{"), frame({}), frame({}), frame({})]))).toThrow(
      "The header of a message is not JSON: {",
    );
    expect(() => decode(key, signed([frame({}), frame({}), frame({}), frame({})]))).toThrow("no msg_type");
  });
});
