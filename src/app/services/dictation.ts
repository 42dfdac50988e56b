/**
 * Speech turned into text by the browser on the device itself. Only offered where the browser says that it can do so
 * without sending anything (Web Speech API, `available` with `processLocally`, W3C community draft of 2025); a browser
 * that recognizes speech on a server is not used.
 */
export interface Dictation {
  /** Listens once; null when nothing was understood. Never rejects. */
  readonly listen: () => Promise<string | null>;
}

interface Recognition extends EventTarget {
  lang: string;
  processLocally: boolean;
  maxAlternatives: number;
  start(): void;
}

interface RecognitionClass {
  new (): Recognition;
  available?(options: { langs: readonly string[]; processLocally: boolean }): Promise<string>;
}

type ResultEvent = Event & { readonly results?: ArrayLike<ArrayLike<{ readonly transcript: string }>> };

/** The dictation of this browser in a language (such as "en-US"), or null where it cannot be had on the device. */
export async function localDictation(lang: string, scope: object = globalThis): Promise<Dictation | null> {
  const { SpeechRecognition: Recognizer } = scope as { readonly SpeechRecognition?: RecognitionClass };
  if (!Recognizer?.available || !('processLocally' in Recognizer.prototype)) return null;
  try {
    // "downloadable" would fetch a language pack: that is for the user to do, not for this tool.
    if ((await Recognizer.available({ langs: [lang], processLocally: true })) !== 'available') return null;
  } catch {
    return null;
  }
  return { listen: () => listenOnce(new Recognizer(), lang) };
}

const listenOnce = (recognition: Recognition, lang: string): Promise<string | null> =>
  new Promise((resolve) => {
    recognition.lang = lang;
    recognition.processLocally = true;
    recognition.maxAlternatives = 1;
    recognition.addEventListener('result', (event: ResultEvent) =>
      resolve(event.results?.[0]?.[0]?.transcript ?? null),
    );
    recognition.addEventListener('error', () => resolve(null));
    recognition.addEventListener('end', () => resolve(null));
    try {
      recognition.start();
    } catch {
      resolve(null);
    }
  });
