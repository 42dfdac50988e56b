import { useState } from 'react';
import type { StatedAccuracy } from '../../../flow';
import { TextField } from '../../parts/text-field';
import { t } from '../../text/t';

interface AccuracyFieldsProps {
  readonly accuracy: StatedAccuracy | undefined;
  readonly onChange: (accuracy: StatedAccuracy | null) => void;
}

/** Nothing where the field is empty or holds no number. */
function numberIn(typed: string): number | null {
  const value = Number(typed.replace(',', '.'));
  return typed.trim() !== '' && Number.isFinite(value) && value >= 0 ? value : null;
}

/** What the maker states of the volt ranges. Both are needed; an empty field takes it back. */
export function AccuracyFields({ accuracy, onChange }: AccuracyFieldsProps) {
  const [percent, setPercent] = useState(accuracy ? String(accuracy.percent) : '');
  const [volts, setVolts] = useState(accuracy ? String(accuracy.volts) : '');
  const say = (): void => {
    const said = { percent: numberIn(percent), volts: numberIn(volts) };
    const whole = said.percent !== null && said.volts !== null ? { percent: said.percent, volts: said.volts } : null;
    if (whole?.percent !== accuracy?.percent || whole?.volts !== accuracy?.volts) onChange(whole);
  };
  return (
    <details>
      <summary>{t('screen.accuracy.title')}</summary>
      <div className="row">
        <TextField decimal label={t('screen.accuracy.percent')} value={percent} onChange={setPercent} onBlur={say} />
        <TextField decimal label={t('screen.accuracy.volts')} value={volts} onChange={setVolts} onBlur={say} />
      </div>
      <small className="soft">{t('screen.accuracy.how')}</small>
    </details>
  );
}
