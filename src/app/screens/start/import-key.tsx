import { useState } from 'react';
import { useLocation } from 'wouter';
import type { Problem } from '../../../flow';
import { FileKey } from '../../parts/file-key';
import { ProblemNote } from '../../parts/problem-note';
import { to } from '../../routes';
import { useServices } from '../../services/context';
import { toProblem } from '../../state/to-problem';
import { t } from '../../text/t';

/** Brings a job exported elsewhere onto this device. */
export function ImportKey() {
  const { store } = useServices();
  const [, navigate] = useLocation();
  const [problem, setProblem] = useState<Problem | null>(null);
  const take = (file: File): void => {
    store.importJson(file).then(
      (id) => navigate(to.job(id)),
      (error: unknown) => setProblem(toProblem(error)),
    );
  };
  return (
    <section className="stack">
      <FileKey accept=".json,.zip,application/json,application/zip" onFile={take}>
        {t('screen.start.import')}
      </FileKey>
      {problem && <ProblemNote problem={problem} />}
    </section>
  );
}
