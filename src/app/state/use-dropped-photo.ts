import { useEffect, useRef } from 'react';

/** Calls `onPhoto` with the first file dropped anywhere on the page or pasted into it. */
export function useDroppedPhoto(onPhoto: (file: File) => void): void {
  const latest = useRef(onPhoto);
  useEffect(() => {
    latest.current = onPhoto;
  });
  useEffect(() => {
    const allow = (event: DragEvent): void => event.preventDefault();
    const drop = (event: DragEvent): void => {
      event.preventDefault();
      const file = event.dataTransfer?.files[0];
      if (file) latest.current(file);
    };
    const paste = (event: ClipboardEvent): void => {
      const file = event.clipboardData?.files[0];
      if (!file) return;
      event.preventDefault();
      latest.current(file);
    };
    document.addEventListener('dragover', allow);
    document.addEventListener('drop', drop);
    document.addEventListener('paste', paste);
    return () => {
      document.removeEventListener('dragover', allow);
      document.removeEventListener('drop', drop);
      document.removeEventListener('paste', paste);
    };
  }, []);
}
