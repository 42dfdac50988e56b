import { Icon } from '../../parts/icon';
import { useOpenJob } from '../../state/use-job';
import { expectedWord } from '../../text/expected-word';
import { leadsWord } from '../../text/leads-word';
import { withSign } from '../../text/numbers';
import { answerWord } from '../../text/reading-word';
import { t } from '../../text/t';
import { ANSWERS, entered, type PadKey, press } from './entry';
import { SpeakKey } from './speak-key';
import type { MeterState, Target } from './use-meter';

const ROWS: readonly (readonly PadKey[])[] = [
  ['7', '8', '9'],
  ['4', '5', '6'],
  ['1', '2', '3'],
];

const UNITS = {
  'AC volts': 'screen.unit.ac',
  'AC volts, low impedance': 'screen.unit.ac',
  'DC volts': 'screen.unit.dc',
  continuity: 'screen.unit.ohm',
  'phase rotation': 'screen.unit.rotation',
  tone: 'screen.unit.tone',
} as const;

interface NumberPadProps {
  readonly meter: MeterState;
  readonly target: Target;
  readonly labelOf: (conductor: string) => string;
}

/** Big keys for gloves: what the meter shows, its unit, OL, and undo. A keyboard types into the display. */
export function NumberPad({ meter, target, labelOf }: NumberPadProps) {
  const { canUndo, undo } = useOpenJob();
  const { entry, setEntry } = meter;
  const answers = ANSWERS[target.function];
  const shown = entry.kind === 'digits' ? withSign(entry.text) : answerWord(entry.value);
  const ready = entered(entry, target.function) !== null;
  const signed = target.function === 'DC volts';
  const undoKey = (
    <button type="button" className="key pad-key" disabled={!canUndo} aria-label={t('screen.pad.undo')} onClick={undo}>
      <Icon name="undo" />
    </button>
  );
  const key = (k: PadKey) => (
    <button key={k} type="button" className="key pad-key" onClick={() => setEntry(press(entry, k))}>
      {withSign(k)}
    </button>
  );
  return (
    <form
      className="pad"
      aria-label={t('screen.pad.label')}
      onSubmit={(event) => {
        event.preventDefault();
        meter.enter();
      }}
    >
      <p className="row">
        <b>{leadsWord(target, labelOf)}</b>
        <span>{t(`screen.function.${target.function}`)}</span>
        {target.condition && <span className="condition">{t(`screen.condition.${target.condition}`)}</span>}
      </p>
      {meter.check?.expected[0] && (
        <p>
          {t(meter.ring ? 'screen.pad.expect-plain' : 'screen.pad.expect', {
            expected: expectedWord(meter.check.expected[0], target.function === 'continuity'),
          })}
        </p>
      )}
      <label className="pad-display">
        <span className="unseen">{t('screen.pad.shown')}</span>
        <input
          type="text"
          inputMode="none"
          autoComplete="off"
          value={shown}
          placeholder={t('screen.pad.empty')}
          onChange={(event) => {
            const text = event.target.value.replace(',', '.');
            if (/^-?\d*\.?\d*$/.test(text)) setEntry({ kind: 'digits', text });
          }}
        />
        <b>{t(UNITS[target.function])}</b>
      </label>
      <SpeakKey onHeard={setEntry} />
      {answers ? (
        <div className="deck-row">
          {answers.map((value) => (
            <button
              key={value}
              type="button"
              className="key pad-key"
              aria-pressed={entry.kind === 'answer' && entry.value === value}
              onClick={() => setEntry({ kind: 'answer', value })}
            >
              {answerWord(value)}
            </button>
          ))}
        </div>
      ) : (
        <div className="pad-grid">
          {ROWS[0]?.map(key)}
          <button
            type="button"
            className="key pad-key"
            aria-label={t('screen.pad.back')}
            onClick={() => setEntry(press(entry, 'back'))}
          >
            <Icon name="back" />
          </button>
          {ROWS[1]?.map(key)}
          <button
            type="button"
            className="key pad-key"
            aria-pressed={shown === 'OL'}
            aria-label={t('screen.pad.ol')}
            onClick={() => setEntry({ kind: 'answer', value: 'OL' })}
          >
            {t('screen.pad.ol-key')}
          </button>
          {ROWS[2]?.map(key)}
          {signed ? (
            <button
              type="button"
              className="key pad-key"
              aria-label={t('screen.pad.sign')}
              onClick={() => setEntry(press(entry, '-'))}
            >
              {t('screen.pad.sign-key')}
            </button>
          ) : (
            undoKey
          )}
          {key('0')}
          {key('.')}
          {signed && undoKey}
          <button type="submit" className={signed ? 'key main' : 'key main pad-enter'} disabled={!ready}>
            {t('screen.pad.enter')}
          </button>
        </div>
      )}
      {answers && (
        <div className="deck-row">
          {undoKey}
          <button type="submit" className="key main" disabled={!ready}>
            {t('screen.pad.enter')}
          </button>
        </div>
      )}
    </form>
  );
}
