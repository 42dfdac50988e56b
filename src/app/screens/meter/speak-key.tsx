import { useEffect, useState } from 'react';
import { type Dictation, localDictation } from '../../services/dictation';
import { speech } from '../../text/speech';
import { t } from '../../text/t';
import type { Entry } from './entry';
import { heard } from './heard';

type Listening = 'no' | 'yes' | 'missed';

/** Dictated entry. Not there at all where the browser cannot do it on the device. What was heard still has to be entered. */
export function SpeakKey({ onHeard }: { readonly onHeard: (entry: Entry) => void }) {
  const [dictation, setDictation] = useState<Dictation | null>(null);
  const [listening, setListening] = useState<Listening>('no');
  const { tag } = speech();
  useEffect(() => {
    let wanted = true;
    void localDictation(tag).then((found) => {
      if (wanted) setDictation(found);
    });
    return () => {
      wanted = false;
    };
  }, [tag]);
  if (!dictation) return null;
  const listen = async (): Promise<void> => {
    setListening('yes');
    const entry = heard((await dictation.listen()) ?? '');
    setListening(entry ? 'no' : 'missed');
    if (entry) onHeard(entry);
  };
  return (
    <div className="speak">
      <button type="button" className="key" disabled={listening === 'yes'} onClick={() => void listen()}>
        {t(listening === 'yes' ? 'screen.dictate.listening' : 'screen.dictate.say')}
      </button>
      <small role="status">{t(listening === 'missed' ? 'screen.dictate.missed' : 'screen.dictate.how')}</small>
    </div>
  );
}
