/**
 * The library turns each line of a page into bytes by itself, and each piece of the file into an event of a stream: tens of
 * thousands of both for a record. Here lines and pieces are gathered as texts, a byte a character as the library has them, and
 * turned into bytes once. The file is the same, byte for byte.
 */

/** What is used of the library's own parts. */
interface Page {
  write(chunk: unknown): void;
  end(): void;
}
interface Inner {
  page: Page | null;
  _offset: number;
  _write(data: string | Uint8Array): void;
  push(chunk: unknown): boolean;
}

/** @returns resolves with the file when the document has ended; asked for before anything is drawn. */
export function gathered(doc: PDFKit.PDFDocument): Promise<Uint8Array> {
  const inner = doc as unknown as Inner;
  // Most documents begin with their first page.
  if (inner.page) gatherPage(inner.page);
  doc.on('pageAdded', () => gatherPage(inner.page!));
  return gatherFile(inner, doc.read() as Buffer);
}

function gatherPage(page: Page): void {
  const write = page.write.bind(page);
  const end = page.end.bind(page);
  let lines: string[] = [];
  const flush = (): void => {
    if (lines.length > 0) write(Buffer.from(`${lines.join('\n')}\n`, 'latin1'));
    lines = [];
  };
  page.write = (chunk) => {
    if (typeof chunk === 'string') {
      lines.push(chunk);
      return;
    }
    flush();
    write(chunk);
  };
  page.end = () => {
    flush();
    end();
  };
}

/** @param head what the library has written by then */
function gatherFile(doc: Inner, head: Uint8Array): Promise<Uint8Array> {
  const pieces = [head];
  let texts: string[] = [];
  const flush = (): void => {
    pieces.push(Buffer.from(texts.join(''), 'latin1'));
    texts = [];
  };
  doc._write = (data) => {
    if (typeof data === 'string') {
      texts.push(data, '\n');
      doc._offset += data.length + 1;
      return;
    }
    flush();
    pieces.push(data);
    doc._offset += data.length;
  };
  return new Promise((resolve) => {
    doc.push = (chunk) => {
      if (chunk !== null) return true;
      flush();
      resolve(Buffer.concat(pieces));
      return false;
    };
  });
}
