import { type ScreenCode, t } from '../text/t';

/** Head of a table: one heading a column, in order. */
export function TableHead({ columns }: { readonly columns: readonly ScreenCode[] }) {
  return (
    <thead>
      <tr>
        {columns.map((code) => (
          <th key={code} scope="col">
            {t(code)}
          </th>
        ))}
      </tr>
    </thead>
  );
}
