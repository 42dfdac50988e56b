import { useEffect, useState } from 'react';

/** The arriving photo, small; decoration. Its object URL is revoked when it leaves the screen. */
export function ArrivalPreview({ bytes }: { readonly bytes: Blob }) {
  const [url, setUrl] = useState<string | null>(null);
  const [broken, setBroken] = useState(false);
  useEffect(() => {
    const made = URL.createObjectURL(bytes);
    setUrl(made);
    setBroken(false);
    return () => URL.revokeObjectURL(made);
  }, [bytes]);
  if (!url || broken) return null;
  return <img className="arrival" src={url} alt="" onError={() => setBroken(true)} />;
}
