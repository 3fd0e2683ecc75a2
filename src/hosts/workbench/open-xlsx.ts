import type { OpenedFile } from './open-file';

export function xlsxWork(_bytes: Uint8Array): OpenedFile {
  throw new Error('Workbooks cannot be opened yet.');
}
