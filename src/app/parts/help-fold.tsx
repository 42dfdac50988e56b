import { type ScreenCode, t } from '../text/t';

const SENTENCES = {
  photo: ['screen.help.photo.1', 'screen.help.photo.2', 'screen.help.photo.3', 'screen.help.photo.4'],
  conductor: ['screen.help.conductor.1', 'screen.help.conductor.2', 'screen.help.conductor.3'],
  map: ['screen.help.map.1', 'screen.help.map.2', 'screen.help.map.3', 'screen.help.map.4'],
  meter: ['screen.help.meter.1', 'screen.help.meter.2', 'screen.help.meter.3', 'screen.help.meter.4'],
} as const satisfies Readonly<Record<string, readonly ScreenCode[]>>;

/** Help where it is needed: a few sentences on this screen, folded until asked for. */
export function HelpFold({ on }: { readonly on: keyof typeof SENTENCES }) {
  return (
    <details className="help-fold">
      <summary>{t(`screen.help.${on}.title`)}</summary>
      <ul className="plain-list">
        {SENTENCES[on].map((code) => (
          <li key={code}>{t(code)}</li>
        ))}
      </ul>
    </details>
  );
}
