import { useEffect, useId, useRef, useState } from 'react';
import { METRIC_SIZES, WIRE_SIZES } from '../../../color';
import { COLOR_NAMES, isColorName, METAL_WORDS, type NamedConductor, type UserWord } from '../../../flow';
import { useServices } from '../../services/context';
import { useOpenJob } from '../../state/use-job';
import type { Workbench } from '../../state/use-workbench';
import { colorWord } from '../../text/names';
import { t } from '../../text/t';
import type { Correctable } from './marks';

/** Which field the user was sent to, and how many times: the same field may be asked for again. */
export interface Asked {
  readonly what: Correctable;
  readonly times: number;
}

interface WordFormProps {
  readonly bench: Workbench;
  readonly conductor: NamedConductor;
  readonly asked: Asked;
}

/** The user's own name for the color: outranks what was read, and stays marked as the user's word. */
export function WordForm({ bench, conductor, asked }: WordFormProps) {
  const { edit } = useOpenJob();
  const { now } = useServices();
  const word = conductor.userWord;
  const [name, setName] = useState<UserWord['name']>(word?.name ?? conductor.insulation.best);
  const [stripe, setStripe] = useState<string>(word?.stripe ?? conductor.stripe?.name ?? '');
  const [tape, setTape] = useState<string>(word?.tape ?? (word?.tape === null ? '' : (conductor.tape[0]?.name ?? '')));
  const [metal, setMetal] = useState<string>(word?.metal ?? '');
  const [size, setSize] = useState<string>(word?.size ?? '');
  const id = useId();
  const frame = useRef<HTMLDetailsElement>(null);
  const colorField = useRef<HTMLSelectElement>(null);
  const stripeField = useRef<HTMLSelectElement>(null);
  const tapeField = useRef<HTMLSelectElement>(null);
  const metalField = useRef<HTMLSelectElement>(null);
  useEffect(() => {
    if (!asked.what || !frame.current) return;
    frame.current.open = true;
    const fields = { color: colorField, stripe: stripeField, tape: tapeField, metal: metalField };
    fields[asked.what].current?.focus();
  }, [asked]);
  const say = (next: UserWord | null): void =>
    edit({ type: 'word', photo: bench.photo.id, conductor: conductor.id, word: next });

  return (
    <details className="card" ref={frame}>
      <summary>{t('screen.word.title')}</summary>
      <div className="stack">
        <p className="soft">{t('screen.word.how')}</p>
        <label className="field" htmlFor={`${id}-name`}>
          <span>{t('screen.word.color')}</span>
          <select
            ref={colorField}
            id={`${id}-name`}
            value={name}
            onChange={(e) => setName(isColorName(e.target.value) ? e.target.value : 'not decided')}
          >
            {COLOR_NAMES.map((each) => (
              <option key={each} value={each}>
                {colorWord(each)}
              </option>
            ))}
            <option value="not decided">{t('screen.color.not-decided')}</option>
          </select>
        </label>
        <label className="field" htmlFor={`${id}-stripe`}>
          <span>{t('screen.word.stripe')}</span>
          <select ref={stripeField} id={`${id}-stripe`} value={stripe} onChange={(e) => setStripe(e.target.value)}>
            <option value="">{t('screen.word.no-stripe')}</option>
            {COLOR_NAMES.filter((each) => each !== 'green-yellow').map((each) => (
              <option key={each} value={each}>
                {colorWord(each)}
              </option>
            ))}
          </select>
        </label>
        <label className="field" htmlFor={`${id}-tape`}>
          <span>{t('screen.word.tape')}</span>
          <select ref={tapeField} id={`${id}-tape`} value={tape} onChange={(e) => setTape(e.target.value)}>
            <option value="">{t('screen.word.no-tape')}</option>
            {COLOR_NAMES.map((each) => (
              <option key={each} value={each}>
                {colorWord(each)}
              </option>
            ))}
          </select>
        </label>
        <label className="field" htmlFor={`${id}-metal`}>
          <span>{t('screen.word.metal')}</span>
          <select ref={metalField} id={`${id}-metal`} value={metal} onChange={(e) => setMetal(e.target.value)}>
            <option value="">{t('screen.word.as-read')}</option>
            {METAL_WORDS.map((each) => (
              <option key={each} value={each}>
                {t(`screen.word.metal.${each}`)}
              </option>
            ))}
          </select>
        </label>
        <label className="field" htmlFor={`${id}-size`}>
          <span>{t('screen.word.size')}</span>
          <select id={`${id}-size`} value={size} onChange={(e) => setSize(e.target.value)}>
            <option value="">{t('screen.word.no-size')}</option>
            {[...WIRE_SIZES, ...METRIC_SIZES].map((each) => (
              <option key={each} value={each}>
                {each}
              </option>
            ))}
          </select>
        </label>
        <div className="row">
          <button
            type="button"
            className="key main"
            onClick={() =>
              say({
                name,
                stripe: isColorName(stripe) ? stripe : null,
                tape: isColorName(tape) ? tape : null,
                metal: METAL_WORDS.find((each) => each === metal) ?? null,
                size: size || null,
                by: bench.job.by || t('screen.by.nobody'),
                at: now(),
              })
            }
          >
            {t('screen.word.keep')}
          </button>
          {word && (
            <button type="button" className="key" onClick={() => say(null)}>
              {t('screen.word.take-back')}
            </button>
          )}
        </div>
      </div>
    </details>
  );
}
