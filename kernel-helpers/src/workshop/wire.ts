/**
 * Messages of the Jupyter wire protocol: frames on a ZeroMQ socket to a checked value and back.
 *
 * A message on the wire is `[identity…, "<IDS|MSG>", signature, header, parent, metadata, content, buffer…]`;
 * the signature is the HMAC-SHA256 of the four JSON frames under the connection's key.
 */
import { createHmac, randomUUID, timingSafeEqual } from "node:crypto";
import { isJsonObject, type JsonObject } from "./json";

const delimiter = "<IDS|MSG>";
const protocolVersion = "5.3";

export interface Header {
  readonly msg_id: string;
  readonly msg_type: string;
  readonly session: string;
  readonly username: string;
  readonly date: string;
  readonly version: string;
}

export interface Message {
  readonly header: Header;
  /** The `msg_id` of the request that this message answers; "" when it answers none. */
  readonly parentId: string;
  readonly content: JsonObject;
}

/** Returns the header of a new message of the given type, with an id of its own. */
export function newHeader(type: string, session: string): Header {
  return {
    msg_id: randomUUID(),
    msg_type: type,
    session,
    username: "notebooks",
    date: new Date().toISOString(),
    version: protocolVersion,
  };
}

/**
 * Signs the JSON frames of a message.
 *
 * Returns the HMAC-SHA256 in lower-case hexadecimal digits, or "" for an empty key, which the protocol
 * defines as "not signed".
 */
export function sign(key: string, frames: readonly Buffer[]): string {
  if (key === "") return "";
  const hash = createHmac("sha256", key);
  for (const frame of frames) hash.update(frame);
  return hash.digest("hex");
}

/** Returns whether the signature belongs to the frames under this key; compares in constant time. */
export function verify(key: string, signature: string, frames: readonly Buffer[]): boolean {
  const wanted = Buffer.from(sign(key, frames));
  const given = Buffer.from(signature);
  return wanted.length === given.length && timingSafeEqual(wanted, given);
}

/** Returns the frames of a request, signed, without an identity (a dealer socket adds its own). */
export function encode(key: string, header: Header, content: JsonObject): Buffer[] {
  const frames = [header, {}, {}, content].map((part) => Buffer.from(JSON.stringify(part)));
  return [Buffer.from(delimiter), Buffer.from(sign(key, frames)), ...frames];
}

/**
 * Reads a message from its frames.
 *
 * Returns the message. Throws an `Error` in a sentence when the delimiter or a frame is missing, when the
 * signature is wrong, or when a frame is not the JSON that the protocol asks for.
 */
export function decode(key: string, frames: readonly Buffer[]): Message {
  const start = frames.findIndex((frame) => frame.toString() === delimiter);
  if (start < 0) throw new Error(`A message of ${frames.length} frames has no ${delimiter} frame.`);
  const signature = frames[start + 1];
  const parts = frames.slice(start + 2, start + 6);
  if (signature === undefined || parts.length < 4) {
    throw new Error(
      `A message ends ${frames.length - start - 1} frames after ${delimiter}; it must have at least 5.`,
    );
  }
  if (!verify(key, signature.toString(), frames.slice(start + 2))) {
    throw new Error(
      `A message carries the signature "${signature.toString()}", which is not that of its frames.`,
    );
  }
  const [header, parent, , content] = parts.map((frame, index) => jsonObject(frame, index));
  return { header: checkedHeader(header), parentId: textOf(parent, "msg_id"), content: content ?? {} };
}

const partNames = ["header", "parent header", "metadata", "content"];

function jsonObject(frame: Buffer, index: number): JsonObject {
  let value: unknown;
  try {
    value = JSON.parse(frame.toString());
  } catch (cause) {
    throw new Error(`The ${partNames[index]} of a message is not JSON: ${frame.toString().slice(0, 80)}`, {
      cause,
    });
  }
  if (!isJsonObject(value)) {
    throw new Error(
      `The ${partNames[index]} of a message is not a JSON object: ${frame.toString().slice(0, 80)}`,
    );
  }
  return value;
}

function checkedHeader(header: JsonObject | undefined): Header {
  const type = textOf(header, "msg_type");
  const id = textOf(header, "msg_id");
  if (type === "" || id === "") throw new Error(`A message has no msg_type or no msg_id in its header.`);
  return {
    msg_id: id,
    msg_type: type,
    session: textOf(header, "session"),
    username: textOf(header, "username"),
    date: textOf(header, "date"),
    version: textOf(header, "version"),
  };
}

function textOf(object: JsonObject | undefined, key: string): string {
  const value = object?.[key];
  return typeof value === "string" ? value : "";
}
