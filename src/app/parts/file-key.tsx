import { type ReactNode, useRef } from 'react';

interface FileKeyProps {
  readonly accept: string;
  readonly className?: string;
  readonly children: ReactNode;
  readonly onFile: (file: File) => void;
}

/** A key that opens the device's file chooser. The input itself is out of sight but is what the chooser belongs to. */
export function FileKey({ accept, className = 'key', children, onFile }: FileKeyProps) {
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <button type="button" className={className} onClick={() => input.current?.click()}>
        {children}
      </button>
      <input
        ref={input}
        type="file"
        accept={accept}
        hidden
        onChange={(event) => {
          const file = event.target.files?.[0];
          event.target.value = '';
          if (file) onFile(file);
        }}
      />
    </>
  );
}
