import { crc32, deflateRawSync } from "node:zlib";

/** A ZIP archive of texts; `declaredSize` lies about the unpacked size of every entry. */
export function zip(files: Readonly<Record<string, string>>, declaredSize?: number): Uint8Array {
  const local: Buffer[] = [];
  const directory: Buffer[] = [];
  let offset = 0;
  for (const [name, text] of Object.entries(files)) {
    const content = Buffer.from(text);
    const packed = deflateRawSync(content);
    const fields = Buffer.alloc(26);
    fields.writeUInt16LE(20, 0);
    fields.writeUInt16LE(8, 4);
    fields.writeUInt32LE(crc32(content), 10);
    fields.writeUInt32LE(packed.length, 14);
    fields.writeUInt32LE(declaredSize ?? content.length, 18);
    fields.writeUInt16LE(Buffer.byteLength(name), 22);
    const head = Buffer.concat([Buffer.from("PK\u0003\u0004"), fields, Buffer.from(name)]);
    const tail = Buffer.alloc(14);
    tail.writeUInt32LE(offset, 10);
    directory.push(Buffer.from("PK\u0001\u0002\u0014\u0000"), fields, tail, Buffer.from(name));
    local.push(head, packed);
    offset += head.length + packed.length;
  }
  const end = Buffer.alloc(22);
  end.write("PK\u0005\u0006", "latin1");
  const count = Object.keys(files).length;
  end.writeUInt16LE(count, 8);
  end.writeUInt16LE(count, 10);
  end.writeUInt32LE(Buffer.concat(directory).length, 12);
  end.writeUInt32LE(offset, 16);
  return Buffer.concat([...local, ...directory, end]);
}

const main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const office = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const packages = "http://schemas.openxmlformats.org/package/2006/relationships";

/** The files of a workbook with one worksheet whose rows are given as XML. */
export function workbookFiles(rows: string): Record<string, string> {
  return {
    "[Content_Types].xml": `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>`,
    "xl/workbook.xml": `<workbook xmlns="${main}" xmlns:r="${office}"><sheets><sheet name="Fish" sheetId="1" r:id="rId1"/></sheets></workbook>`,
    "xl/_rels/workbook.xml.rels": `<Relationships xmlns="${packages}"><Relationship Id="rId1" Type="${office}/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`,
    "xl/worksheets/sheet1.xml": `<worksheet xmlns="${main}"><sheetData>${rows}</sheetData></worksheet>`,
  };
}

/** A cell that holds a text of its own. */
export function textCell(address: string, text: string): string {
  return `<c r="${address}" t="inlineStr"><is><t>${text}</t></is></c>`;
}
