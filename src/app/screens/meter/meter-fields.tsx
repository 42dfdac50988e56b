import type { JobMeter } from '../../../flow';
import { t } from '../../text/t';

const CATEGORIES = ['II', 'III', 'IV'] as const;
/** Voltages printed beside the category on hand meters (IEC 61010-1 rated voltages to earth). */
const RATED = [150, 300, 600, 1000] as const;

interface MeterFieldsProps {
  readonly meter: JobMeter | undefined;
  readonly onChange: (meter: JobMeter) => void;
}

/** What is printed at the terminals of the meter in hand. */
export function MeterFields({ meter, onChange }: MeterFieldsProps) {
  const now: JobMeter = meter ?? { category: null, ratedVolts: 600, lowImpedance: false };
  return (
    <fieldset className="stack">
      <legend>{t('screen.meter-facts.title')}</legend>
      <div className="row">
        {CATEGORIES.map((category) => (
          <button
            key={category}
            type="button"
            className="key"
            aria-pressed={now.category === category}
            onClick={() => onChange({ ...now, category })}
          >
            {t('screen.meter-facts.category', { category })}
          </button>
        ))}
      </div>
      <div className="row">
        {RATED.map((volts) => (
          <button
            key={volts}
            type="button"
            className="key"
            aria-pressed={meter !== undefined && now.ratedVolts === volts}
            onClick={() => onChange({ ...now, ratedVolts: volts })}
          >
            {t('screen.value.volts', { value: volts })}
          </button>
        ))}
      </div>
      <label className="tick">
        <input
          type="checkbox"
          checked={now.lowImpedance}
          onChange={(e) => onChange({ ...now, lowImpedance: e.target.checked })}
        />
        {t('screen.meter-facts.low-impedance')}
      </label>
    </fieldset>
  );
}
