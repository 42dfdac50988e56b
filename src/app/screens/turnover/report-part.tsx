import { useState } from 'react';
import type { JobPhoto, Problem } from '../../../flow';
import { deviationTable, loadLabels, loadReport } from '../../../record';
import { ProblemNote } from '../../parts/problem-note';
import { useServices } from '../../services/context';
import { downloadFile } from '../../services/download';
import { reportPicture } from '../../services/report-picture';
import { shareFile } from '../../services/share';
import { toProblem } from '../../state/to-problem';
import type { SecondCopy } from '../../state/use-second-copy';
import { fileName } from '../../text/file-name';
import { say } from '../../text/say';
import { speech } from '../../text/speech';
import { t } from '../../text/t';
import type { PartProps } from './part-props';
import { SecondCopyCard } from './second-copy-card';
import { SignatureForm } from './signature-form';
import { TurnoverPage } from './turnover-page';

/** The turnover leaves: report, archive, deviations, labels; and it is signed. */
export function ReportPart({ job, work, copy }: PartProps & { readonly copy: SecondCopy }) {
  const { store, now } = useServices();
  const [problem, setProblem] = useState<Problem | null>(null);
  const [progress, setProgress] = useState<{ readonly done: number; readonly of: number } | null>(null);
  const name = fileName(job.title);
  const hand = (make: Promise<Blob>, extension: string, give: typeof shareFile): void => {
    setProblem(null);
    make
      .then((blob) => give(blob, `${name}.${extension}`))
      .catch((error: unknown) => setProblem(toProblem(error)))
      .finally(() => setProgress(null));
  };
  const download = async (blob: Blob, as: string): Promise<void> => downloadFile(blob, as);

  const report = async (): Promise<Blob> => {
    const { makeReport } = await loadReport();
    const photos = new Map(job.photos.map((photo) => [photo.id, photo]));
    setProgress({ done: 0, of: photos.size });
    const { readable, writable } = new TransformStream<Uint8Array<ArrayBuffer>, Uint8Array<ArrayBuffer>>();
    // A Response gathers the pages into a Blob that the browser may keep on disk.
    const blob = new Response(readable).blob();
    blob.catch(() => {});
    await makeReport(
      {
        title: job.title,
        by: job.by,
        demo: job.demo,
        madeAt: now(),
        view: work.view,
        log: await store.log(job.id),
        photos: [...photos.keys()],
        same: job.same ?? [],
        photo: async (id) => photos.get(id) as JobPhoto,
        picture: async (id) => {
          const blob = await store.photo(job.id, id);
          return blob ? await reportPicture(blob) : null;
        },
        standings: work.standings,
        say,
        locale: speech().locale,
      },
      writable,
      (done, of) => setProgress({ done, of }),
    );
    return new Blob([await blob], { type: 'application/pdf' });
  };
  const labels = async (): Promise<Blob> => {
    const { labelSheet } = await loadLabels();
    const sheet = work.view.compared
      .filter(({ termination: item }) => item.part === 'pole')
      .map(({ termination: item }) => ({
        place: { panel: item.panel, ...(item.space === null ? {} : { space: item.space }), termination: item.id },
        lines: [item.panel, item.space === null ? item.circuit : String(item.space), item.load],
      }));
    return new Blob([(await labelSheet(sheet)) as Uint8Array<ArrayBuffer>], { type: 'application/pdf' });
  };
  const deviations = async (): Promise<Blob> =>
    new Blob([deviationTable(work.view)], { type: 'text/csv;charset=utf-8' });
  return (
    <TurnoverPage job={job} title={t('screen.turnover.report')} current="report">
      {problem && <ProblemNote problem={problem} />}
      <section className="card stack">
        <p className="soft">{t('screen.turnover.report-how')}</p>
        {progress && (
          <label className="field" role="status">
            <span>{t('screen.turnover.printing', progress)}</span>
            <progress className="turnover-bar" max={progress.of} value={progress.done} />
          </label>
        )}
        <div className="row turnover-parts">
          <button
            type="button"
            className="key main"
            disabled={progress !== null}
            onClick={() => hand(report(), 'pdf', shareFile)}
          >
            {t('screen.turnover.pdf')}
          </button>
          <button type="button" className="key" onClick={() => hand(store.exportArchive(job), 'zip', shareFile)}>
            {t('screen.export.archive')}
          </button>
          <button type="button" className="key" onClick={() => hand(deviations(), 'csv', download)}>
            {t('screen.turnover.deviations-csv')}
          </button>
          <button
            type="button"
            className="key"
            disabled={work.view.compared.length === 0}
            onClick={() => hand(labels(), 'labels.pdf', download)}
          >
            {t('screen.turnover.labels')}
          </button>
        </div>
      </section>
      <SecondCopyCard copy={copy} />
      <SignatureForm job={job} work={work} />
    </TurnoverPage>
  );
}
