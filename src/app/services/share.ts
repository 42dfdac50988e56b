import { downloadFile } from './download';

/** Hands a file to the system's share sheet where there is one that takes it, else saves it. */
export async function shareFile(blob: Blob, name: string): Promise<void> {
  const file = new File([blob], name, { type: blob.type });
  if (navigator.canShare?.({ files: [file] })) {
    try {
      await navigator.share({ files: [file] });
      return;
    } catch (error) {
      // The user closed the sheet: that is an answer. Anything else falls back to saving.
      if (error instanceof DOMException && error.name === 'AbortError') return;
    }
  }
  downloadFile(blob, name);
}
