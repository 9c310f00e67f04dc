/** One file inside a ZIP archive. */
export interface ZipEntry {
  readonly name: string;
  /** Its size when unpacked, as the archive declares it. */
  readonly size: number;
  readonly packed: Uint8Array;
  readonly method: number;
}

const stored = 0;
const deflated = 8;

/** The entries of a ZIP archive by its directory; undefined if it has none that can be read. */
export function zipEntries(bytes: Uint8Array): ZipEntry[] | undefined {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = directoryEnd(view);
  if (end === undefined) return undefined;
  const count = view.getUint16(end + 10, true);
  let at = view.getUint32(end + 16, true);
  const entries: ZipEntry[] = [];
  for (let i = 0; i < count; i++) {
    if (at + 46 > view.byteLength || view.getUint32(at, true) !== 0x02014b50) return undefined;
    const nameLength = view.getUint16(at + 28, true);
    const packedSize = view.getUint32(at + 20, true);
    const local = view.getUint32(at + 42, true);
    if (local + 30 > view.byteLength || view.getUint32(local, true) !== 0x04034b50) return undefined;
    const start = local + 30 + view.getUint16(local + 26, true) + view.getUint16(local + 28, true);
    entries.push({
      name: new TextDecoder().decode(bytes.subarray(at + 46, at + 46 + nameLength)),
      size: view.getUint32(at + 24, true),
      packed: bytes.subarray(start, start + packedSize),
      method: view.getUint16(at + 10, true),
    });
    at += 46 + nameLength + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  }
  return entries;
}

/** The directory's end record stands in the last 64 KB, before an optional comment. */
function directoryEnd(view: DataView): number | undefined {
  const shortest = 22;
  for (let at = view.byteLength - shortest; at >= Math.max(0, view.byteLength - 65_557); at--) {
    if (view.getUint32(at, true) === 0x06054b50) return at;
  }
  return undefined;
}

/**
 * The text of an entry. Throws an Error if it is damaged or larger than the archive declares, so that no archive
 * unpacks to more than its directory says.
 */
export async function entryText(entry: ZipEntry): Promise<string> {
  if (entry.method === stored) return new TextDecoder().decode(entry.packed);
  if (entry.method !== deflated) throw new Error(`${entry.name} is packed by method ${entry.method}`);
  const reader = new Blob([new Uint8Array(entry.packed)])
    .stream()
    .pipeThrough(new DecompressionStream("deflate-raw"))
    .getReader();
  const decoder = new TextDecoder();
  let text = "";
  let size = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) return text + decoder.decode();
    size += value.length;
    if (size > entry.size) {
      await reader.cancel();
      throw new Error(`${entry.name} is larger than the archive declares`);
    }
    text += decoder.decode(value, { stream: true });
  }
}
