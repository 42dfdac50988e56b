import { useState } from 'react';
import type { Job, Problem } from '../../../flow';
import { ProblemNote } from '../../parts/problem-note';
import { useServices } from '../../services/context';
import { downloadFile } from '../../services/download';
import { toProblem } from '../../state/to-problem';
import { fileName } from '../../text/file-name';
import { t } from '../../text/t';
import { standingsOf } from '../../thinking/standings';

/** Hands the record out as files. */
export function ExportKeys({ job }: { readonly job: Job }) {
  const { store, thinker } = useServices();
  const [problem, setProblem] = useState<Problem | null>(null);
  const hand = (make: Promise<Blob>, extension: string): void => {
    setProblem(null);
    make.then(
      (blob) => downloadFile(blob, `${fileName(job.title)}.${extension}`),
      (error: unknown) => setProblem(toProblem(error)),
    );
  };
  const exportCsv = async (of: Job): Promise<Blob> => store.exportCsv(of, await standingsOf(of, thinker));
  return (
    <section className="stack" aria-labelledby="export">
      <h2 id="export">{t('screen.export.title')}</h2>
      <p className="soft">{t('screen.export.what')}</p>
      <div className="row">
        <button type="button" className="key" onClick={() => hand(store.exportArchive(job), 'zip')}>
          {t('screen.export.archive')}
        </button>
        <button type="button" className="key" onClick={() => hand(store.exportJson(job), 'json')}>
          {t('screen.export.json')}
        </button>
        <button type="button" className="key" onClick={() => hand(exportCsv(job), 'csv')}>
          {t('screen.export.csv')}
        </button>
      </div>
      {problem && <ProblemNote problem={problem} />}
    </section>
  );
}
