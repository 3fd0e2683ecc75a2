import { excelSentence } from './excel-errors';

const SLICE_BYTES = 1 << 20;

const openFile = (): Promise<Office.File> =>
  new Promise((resolve, reject) =>
    Office.context.document.getFileAsync(
      Office.FileType.Compressed,
      { sliceSize: SLICE_BYTES },
      (result) =>
        result.status === Office.AsyncResultStatus.Succeeded
          ? resolve(result.value)
          : reject(new Error(excelSentence(result.error))),
    ),
  );

const slice = (file: Office.File, index: number): Promise<Uint8Array> =>
  new Promise((resolve, reject) =>
    file.getSliceAsync(index, (result) =>
      result.status === Office.AsyncResultStatus.Succeeded
        ? resolve(Uint8Array.from(result.value.data as number[]))
        : reject(new Error(excelSentence(result.error))),
    ),
  );

/** The open workbook as an .xlsx file, in slices because Excel gives at most 4 MB at a time. */
export async function fileBytes(): Promise<Uint8Array> {
  const file = await openFile();
  try {
    const parts: Uint8Array[] = [];
    for (let i = 0; i < file.sliceCount; i++) parts.push(await slice(file, i));
    const bytes = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
    let at = 0;
    for (const part of parts) {
      bytes.set(part, at);
      at += part.length;
    }
    return bytes;
  } finally {
    // Excel keeps only two such files open at a time.
    file.closeAsync(() => undefined);
  }
}

function base64(bytes: Uint8Array): string {
  let text = '';
  // A spread of the whole file would overflow the stack.
  for (let i = 0; i < bytes.length; i += 0x8000) {
    text += String.fromCharCode(...bytes.subarray(i, i + 0x8000));
  }
  return btoa(text);
}

/** True where Excel opened the file as a new workbook. */
export const openAsNewWorkbook = (bytes: Uint8Array): Promise<boolean> =>
  Excel.createWorkbook(base64(bytes)).then(
    () => true,
    () => false,
  );
