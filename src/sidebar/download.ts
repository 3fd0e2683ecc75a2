/** Hands a file to the browser as a download. */
export function download(name: string, content: Uint8Array | string, type: string): void {
  const url = URL.createObjectURL(new Blob([content as BlobPart], { type }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  // The download reads the address after this turn.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}
