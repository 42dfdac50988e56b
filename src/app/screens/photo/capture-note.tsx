import { type CaptureVerdict, type LightEstimate, message } from '../../../flow';
import { say } from '../../text/say';
import { t } from '../../text/t';

interface CaptureNoteProps {
  readonly capture: CaptureVerdict;
  readonly light: LightEstimate;
  /** Things of known color that the user touched; the light was estimated before that. */
  readonly touched: number;
}

const TITLES = {
  good: 'screen.capture.good',
  limited: 'screen.capture.limited',
  retake: 'screen.capture.retake',
} as const;

const LIGHTS = {
  'scene statistics': 'screen.light.statistics',
  'reference in the shot': 'screen.light.reference',
  'assumed neutral': 'screen.light.assumed',
} as const;

/** Is the photo fit for reading colors, what to do about it, and what the light estimate rests on. */
export function CaptureNote({ capture, light, touched }: CaptureNoteProps) {
  const tone = { good: '', limited: 'caution', retake: 'danger' }[capture.verdict];
  return (
    <div className={`note ${tone}`}>
      <strong>{t(TITLES[capture.verdict])}</strong>
      {capture.reasons.length > 0 && (
        <ul className="plain-list">
          {capture.reasons.map((reason) => (
            <li key={reason.code}>{say(reason)}</li>
          ))}
        </ul>
      )}
      {light.flash && <p>{say(message('photo.light.flash'))}</p>}
      <p className="soft">
        {touched > 0
          ? t('screen.light.touched', { count: touched })
          : t(LIGHTS[light.basis], { degrees: Math.round(light.errorDeg) })}
      </p>
    </div>
  );
}
