import { describe, expect, test } from 'vitest';
import { heard } from '../../src/app/screens/meter/heard';
import { localDictation } from '../../src/app/services/dictation';

const digits = (text: string) => ({ kind: 'digits', text });

describe('a spoken reading', () => {
  test.each([
    ['120', '120'],
    ['207.6 volts', '207.6'],
    ['120 point 5', '120.5'],
    ['207,6 voltios', '207.6'],
    ['Minus 48 V.', '-48'],
    ['0.2 ohms', '0.2'],
  ])('%s', (spoken, text) => expect(heard(spoken)).toEqual(digits(text)));

  test('over limit and orders of phases are answers', () => {
    expect(heard('O L')).toEqual({ kind: 'answer', value: 'OL' });
    expect(heard('Overload.')).toEqual({ kind: 'answer', value: 'OL' });
    expect(heard('a b c')).toEqual({ kind: 'answer', value: 'ABC' });
  });

  test.each(['', 'about 120', '120 or 208', 'one twenty', 'a c b', '12 13'])('%s is not understood (twin)', (spoken) =>
    expect(heard(spoken)).toBeNull(),
  );
});

describe('dictation', () => {
  const browser = (answer: string | null, local = true) => {
    class SpeechRecognition extends EventTarget {
      static available = answer === null ? undefined : () => Promise.resolve(answer);
      start(): void {}
    }
    if (local) Object.defineProperty(SpeechRecognition.prototype, 'processLocally', { value: false, writable: true });
    return { SpeechRecognition };
  };

  test('is offered where the browser recognizes speech on the device', async () => {
    expect(await localDictation('en-US', browser('available'))).not.toBeNull();
  });

  test.each([
    ['no recognition at all', {}],
    ['recognition on a server only', browser(null)],
    ['no switch for local work', browser('available', false)],
    ['a pack that would have to be fetched', browser('downloadable')],
    ['none for the language', browser('unavailable')],
  ])('is not offered with %s (twin)', async (_, scope) => {
    expect(await localDictation('en-US', scope)).toBeNull();
  });
});
