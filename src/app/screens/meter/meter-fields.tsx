import type { JobMeter } from '../../../flow';
import { rememberAccuracy, rememberedAccuracy } from '../../services/remembered-accuracy';
import { t } from '../../text/t';
import { AccuracyFields } from './accuracy-fields';

const CATEGORIES = ['II', 'III', 'IV'] as const;
/** Voltages printed beside the category on hand meters (IEC 61010-1 rated voltages to earth). */
const RATED = [150, 300, 600, 1000] as const;

interface MeterFieldsProps {
  readonly meter: JobMeter | undefined;
  readonly onChange: (meter: JobMeter) => void;
}

/** A job whose meter nobody has spoken of yet: the accuracy is that of the last one. */
function unsaid(): JobMeter {
  const accuracy = rememberedAccuracy();
  return { category: null, ratedVolts: 600, lowImpedance: false, ...(accuracy ? { accuracy } : {}) };
}

/** What is printed at the terminals of the meter in hand. */
export function MeterFields({ meter, onChange }: MeterFieldsProps) {
  const now: JobMeter = meter ?? unsaid();
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
      <AccuracyFields
        accuracy={now.accuracy}
        onChange={(accuracy) => {
          const { accuracy: _, ...facts } = now;
          rememberAccuracy(accuracy);
          onChange(accuracy ? { ...facts, accuracy } : facts);
        }}
      />
    </fieldset>
  );
}
