import { type ScreenCode, t } from '../text/t';

/** Head of every table of conductors: number, what is said of it, how far that is proved. */
export function ConductorHead({ says }: { readonly says: ScreenCode }) {
  return (
    <thead>
      <tr>
        <th scope="col">{t('screen.col.number')}</th>
        <th scope="col">{t(says)}</th>
        <th scope="col">{t('screen.col.standing')}</th>
      </tr>
    </thead>
  );
}
